import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A plain relay with nothing across its coil. */
function relay(): Bench {
  return bench()
    .part('k', 'relay', 'seat', { suppression: 'none' })
    .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => relay(),
  clean: () => relay().part('d', 'diode', 'seat', { type: '1n4007' }).wire('d.K', 'k.86', { lengthM: 0.1 }).wire('d.A', 'k.85', { lengthM: 0.1 }),
  inOrder: 'A diode across the coil takes the spike.',
  also: ['feed15', 'senseFuse', 'converter'],
};
