import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('opto', { type: '4n25' }).set('computer', { gpio16Mode: 'in-up' }),
  clean: () => bench(),
  inOrder: 'A type that passes on enough of its current.',
  also: ['sense', 'pull', 'computer'],
};
