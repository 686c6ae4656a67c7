import { fusedFeed } from '../fusedFeed.ts';

export const fusedFeed15 = fusedFeed(
  '15',
  'Fused ignition feed',
  'Ignition 15 with a fuse within a hand’s width of the tap: tells the build that the key is on.',
);
