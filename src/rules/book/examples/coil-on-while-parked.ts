import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().cut('trigger').wire('fuse.2', 'relay.15', { lengthM: 2.2 }),
  clean: () => bench(),
  inOrder: 'The key works the relay: parked, its coil rests.',
};
