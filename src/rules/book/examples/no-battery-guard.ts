import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A screen of 0.3 A that nobody switches off. */
function recorder(): Bench {
  return fused('left alone')
    .part('regulator', 'linear-regulator', 'dash')
    .part('screen', 'touch-display', 'dash', { typA: 0.3, peakA: 0.3 })
    .wire('fuse.2', 'regulator.in', { lengthM: 1 }, 'supply')
    .wire('regulator.gnd', 'ground.31', { lengthM: 1 })
    .wire('regulator.out', 'screen.5v', { lengthM: 0.3 })
    .wire('screen.0v', 'regulator.gnd', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => recorder(),
  clean: () => recorder().into('supply', 'cutout', 'low-voltage-cutout', ['in', 'out'], { warns: false, cutV: 12, delayS: 60 }).wire('cutout.gnd', 'ground.31'),
  inOrder: 'A cut-out of 12.0 V and 60 s stands in the feed.',
};
