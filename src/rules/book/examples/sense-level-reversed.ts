import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('computer', { senseActive: 'high-when-on' }),
  clean: () => bench(),
  inOrder: 'The program takes low for “key on”, which is what the optocoupler gives.',
  also: ['pull'],
};
