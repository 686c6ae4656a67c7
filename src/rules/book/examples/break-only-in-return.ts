import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

function camera(): Bench {
  return withCamera(fused('camera'), { typA: 0.6, nightA: 0.6 });
}

export const example: Example = {
  flagged: () =>
    camera()
      .without('fuse')
      .cut('back')
      .part('breaker', 'blade-fuse', 'dash')
      .wire('feed30.out', 'camera.+', { lengthM: 1 })
      .wire('camera.-', 'breaker.1', { lengthM: 0.5 })
      .wire('breaker.2', 'ground.31', { lengthM: 0.5 }),
  clean: () => camera(),
  inOrder: 'The fuse sits in the feed: once open, nothing behind it is live.',
  also: ['feed30', 'camera', 'ground'],
};
