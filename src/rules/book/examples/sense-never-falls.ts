import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().cut('sense').wire('fuse.2', 'sense.1', { lengthM: 0.05 }, 'sense'),
  clean: () => bench(),
  inOrder: 'Ignition falls with the key.',
  also: ['feed30', 'fuse', 'feed15', 'senseFuse', 'sense'],
};
