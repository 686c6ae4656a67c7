import type { ZoneKind } from '../../../plan/types.ts';
import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A relay pulled in by ignition, in a place of that kind. */
const relay = (kind: ZoneKind): Bench =>
  bench()
    .without('relay')
    .part('k', 'relay', 'seat', { suppression: 'diode' })
    .wire('fuse.2', 'k.30', { lengthM: 2.1 })
    .wire('k.87', 'guard.in', { lengthM: 0.2 })
    .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 })
    .zone('seat', { kind });

export const example: Example = {
  flagged: () => relay('engine-bay'),
  clean: () => relay('under-seat'),
  inOrder: 'Under a seat, 45 °C while running, it keeps below 155 °C.',
  also: ['senseFuse'],
};
