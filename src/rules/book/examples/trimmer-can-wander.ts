import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('converter', { trimmer: true }),
  clean: () => bench(),
  inOrder: 'The output is fixed: there is no screw to wander.',
  also: ['computer'],
};
