import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().without('fuse').wire('feed30.out', 'relay.30', { lengthM: 2.2 }, 'feed'),
  clean: () => bench(),
  inOrder: 'A fuse at the tap, before anything else.',
};
