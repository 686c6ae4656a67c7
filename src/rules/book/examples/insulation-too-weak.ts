import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera on wire of an insulation class. */
function camera(insulationC: number): Bench {
  return withCamera(fused('camera')).wireSet('supply', { areaMm2: 0.5, insulationC });
}

export const example: Example = {
  flagged: () => camera(70),
  clean: () => camera(105),
  inOrder: 'Vehicle wire for 105 °C has 35 K in hand in a dash of 70 °C.',
  also: ['feed30', 'ground'],
};
