import { fusedFeed } from '../fusedFeed.ts';

export const fusedFeed30 = fusedFeed(
  '30',
  'Fused constant feed',
  'Constant 30 with a fuse within a hand’s width of the tap: where the build’s power comes from.',
);
