import type { ZoneKind } from '../../../plan/types.ts';
import type { Bench } from '../bench.ts';
import { plainRelay } from '../plans.ts';
import type { Example } from '../types.ts';

/** A relay pulled in by ignition, in a place of that kind. */
const relay = (kind: ZoneKind): Bench => plainRelay().zone('seat', { kind });

export const example: Example = {
  flagged: () => relay('engine-bay'),
  clean: () => relay('under-seat'),
  inOrder: 'Under a seat, 45 °C while running, it keeps below 155 °C.',
  also: ['senseFuse'],
};
