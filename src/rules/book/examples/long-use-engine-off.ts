import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** 1.6 A from a battery of 45 Ah. */
function used(engineOffH: number): Bench {
  return fused('market stall', { batteryAh: 45, engineOffH })
    .part('camera', 'camera', 'dash', { typA: 1.6, nightA: 1.6 })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });
}

export const example: Example = {
  flagged: () => used(8),
  clean: () => used(4),
  inOrder: '4 h at 1.6 A take 6.4 Ah, less than a fifth of 45 Ah.',
  also: ['battery', 'feed30', 'fuse', 'camera', 'ground'],
};
