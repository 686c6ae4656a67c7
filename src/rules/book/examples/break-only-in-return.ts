import { fused, ground, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () =>
    ground('fuse in the ground wire')
      .part('feed30', 'feed-30', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
      .part('camera', 'camera', 'dash', { typA: 0.6, nightA: 0.6 })
      .part('breaker', 'blade-fuse', 'dash')
      .wire('battery.+', 'feed30.in', { owner: 'vehicle' })
      .wire('feed30.out', 'camera.+', { lengthM: 1 })
      .wire('camera.-', 'breaker.1', { lengthM: 0.5 })
      .wire('breaker.2', 'ground.31', { lengthM: 0.5 }),
  clean: () => withCamera(fused('fuse in the feed'), { typA: 0.6, nightA: 0.6 }),
  inOrder: 'The fuse sits in the feed: once open, nothing behind it is live.',
  also: ['feed30', 'camera', 'ground'],
};
