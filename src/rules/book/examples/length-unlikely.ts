import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** Dash to seat: the run is 2.2 m long. */
function camera(lengthM: number): Bench {
  return withCamera(fused('camera'), {}, { zone: 'seat', lengthM });
}

export const example: Example = {
  flagged: () => camera(1.5),
  clean: () => camera(2.4),
  inOrder: '2.4 m reach over a run of 2.2 m.',
  also: ['feed30', 'fuse', 'camera', 'ground'],
};
