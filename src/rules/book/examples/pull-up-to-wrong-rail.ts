import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().cut('pull-').wire('pull.2', 'converter.out', { lengthM: 0.2 }, 'pull-'),
  clean: () => bench(),
  inOrder: 'Pulled up to the computer’s own 3.3 V.',
  also: ['pull', 'opto', 'converter'],
};
