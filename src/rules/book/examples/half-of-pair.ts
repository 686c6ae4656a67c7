import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A 24 V machine whose lead comes from the whole pair, or from the middle of it. */
function pair(from: string): Bench {
  return fused('harvester', { systemV: 24, batteryAh: 170 }).set('feed30', { pair: from });
}

export const example: Example = {
  flagged: () => withCamera(pair('half'), { typA: 0.8, nightA: 0.8 }),
  clean: () =>
    pair('whole')
      .part('converter', 'step-down', 'dash', { setV: 12 })
      .part('camera', 'camera', 'dash', { typA: 0.8, nightA: 0.8 })
      .wire('fuse.2', 'converter.in', { lengthM: 0.5 })
      .wire('converter.gnd', 'ground.31', { lengthM: 0.5 })
      .wire('converter.out', 'camera.+', { lengthM: 0.5 })
      .wire('camera.-', 'converter.0v', { lengthM: 0.5 }),
  inOrder: 'Both batteries feed a converter, and the converter gives 12 V.',
  also: ['fuse', 'camera', 'ground'],
};
