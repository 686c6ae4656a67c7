import { bench } from '../plans.ts';
import { onIgnition } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () =>
    onIgnition('accessory')
      .part('feed75', 'feed-75', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
      .wire('battery.+', 'feed75.in', { owner: 'vehicle' })
      .cut('tap')
      .wire('feed75.out', 'fuse.1', { lengthM: 0.12 }, 'tap'),
  clean: () => bench(),
  inOrder: 'Permanent 30 stays live while the starter turns.',
  also: ['feed75', 'feed30', 'fuse', 'guard', 'converter', 'computer'],
};
