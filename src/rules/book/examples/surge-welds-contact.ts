import { straight } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** A rocker in the supply with a large capacitor right behind it. */
const rocker = (dcA: number) =>
  straight('30', 'rocker')
    .set('bulk', { farad: 0.01, esrOhm: 0.02 })
    .cut('feed')
    .part('switch', 'master-switch', 'dash', { dcA })
    .wire('fuse.2', 'switch.1', { lengthM: 0.1, areaMm2: 2.5 })
    .wire('switch.2', 'guard.in', { lengthM: 0.2, areaMm2: 2.5 }, 'feed');

export const example: Example = {
  flagged: () => rocker(10),
  clean: () => rocker(40),
  inOrder: 'A contact that may make what the empty capacitor takes.',
  also: ['fuse', 'guard', 'bulk'],
};
