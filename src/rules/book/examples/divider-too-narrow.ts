import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A divider from the fused ignition line to GPIO 5. */
function divider(top: number, low: number): Bench {
  return bench()
    .part('top', 'resistor', 'dash', { ohm: top })
    .part('low', 'resistor', 'seat', { ohm: low })
    .wire('senseFuse.2', 'top.1', { lengthM: 0.1 })
    .wire('top.2', 'low.1', { lengthM: 2 })
    .wire('low.1', 'computer.29', { lengthM: 0.05 })
    .wire('low.2', 'computer.39', { lengthM: 0.1 });
}

export const example: Example = {
  flagged: () => divider(33_000, 10_000),
  clean: () =>
    divider(27_000, 10_000)
      .part('clampDiode', 'diode', 'seat', { type: '1n5819' })
      .wire('clampDiode.A', 'low.1', { lengthM: 0.05 })
      .wire('clampDiode.K', 'computer.17', { lengthM: 0.1 }),
  inOrder: 'High enough at 9 V, and a Schottky diode to 3.3 V takes what is too much.',
  also: ['feed15', 'senseFuse', 'clampDiode'],
};
