import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('computer', { restartsOnKey: false }),
  clean: () => bench().set('computer', { restartsOnKey: false }).set('relay', { minOffS: 5 }),
  inOrder: 'The relay always runs out and stays open for 5 s: the computer starts anew.',
  also: ['fuse', 'senseFuse', 'relay', 'guard', 'converter'],
};
