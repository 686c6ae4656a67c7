import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('computer', { caseBonded: true }),
  clean: () => bench(),
  inOrder: 'Its 0 V meets the body once, at the radio.',
  also: ['converter', 'ground'],
};
