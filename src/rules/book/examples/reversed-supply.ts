import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** Fuse, and at once a capacitor and a module without a guard of its own. */
function bare(): Bench {
  return fused('no guard')
    .part('converter', 'step-down', 'seat', { reverseGuard: false })
    .part('bulk', 'capacitor', 'seat')
    .part('computer', 'computer', 'seat')
    .wire('fuse.2', 'converter.in', { lengthM: 2 }, 'feed')
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 })
    .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 })
    .wire('converter.gnd', 'ground.31', { lengthM: 2 })
    .wire('converter.out', 'computer.2', { lengthM: 0.2, areaMm2: 1.5 })
    .wire('converter.0v', 'computer.6', { lengthM: 0.2, areaMm2: 1.5 });
}

export const example: Example = {
  flagged: () => bare(),
  clean: () => bare().into('feed', 'guard', 'reverse-guard', ['in', 'out'], { reverseV: 200 }).wire('guard.gnd', 'converter.gnd', { lengthM: 0.1 }),
  inOrder: 'A reverse guard blocks what comes the wrong way round, ahead of capacitor and converter.',
  also: ['fuse', 'bulk', 'converter', 'ground'],
};
