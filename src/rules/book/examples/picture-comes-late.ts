import type { Bench } from '../bench.ts';
import { fused, ground, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A fuse behind the reversing lamp. */
const reversing = (): Bench =>
  ground('reversing')
    .part('feed', 'feed-reverse', 'dash', { proven: true }, { owner: 'vehicle' })
    .part('fuse', 'blade-fuse', 'dash')
    .wire('feed.out', 'fuse.1', { lengthM: 0.1 });

export const example: Example = {
  flagged: () => withCamera(reversing(), { startS: 3 }),
  clean: () => withCamera(fused('always on'), { startS: 3 }),
  inOrder: 'Powered while driving: it has long started.',
  also: ['fuse'],
};
