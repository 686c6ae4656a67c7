import { bench } from '../plans.ts';
import { withLampSense } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () =>
    bench()
      .part('lamps', 'feed-58', 'dash', { proven: true }, { owner: 'vehicle' })
      .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
      .part('camera', 'camera', 'dash')
      .part('screen', 'touch-display', 'dash')
      .wire('lamps.out', 'lampFuse.1', { lengthM: 0.1 })
      .wire('lampFuse.2', 'camera.+')
      .wire('camera.-', 'ground.31')
      .wire('camera.video', 'screen.video'),
  clean: () => withLampSense('58'),
  inOrder: 'It only lights an optocoupler, which tells day from night.',
  also: ['lampFeed', 'lampFuse', 'lampSense', 'lampOpto', 'lampFuse'],
};
