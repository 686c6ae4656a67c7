/** How hot and cold each kind of place in a vehicle gets, degrees C. */
import { type Basis, demand } from './basis.ts';
import type { ZoneKind } from './words.ts';

export interface ZoneClimate {
  readonly title: string;
  /** After a hot soak, parked: for insulation, fuses behind always-live lines, and faults that happen parked. */
  readonly maxC: number;
  readonly minC: number;
  /** While the build runs: for self-heating parts. */
  readonly runningMaxC: number;
  readonly basis: Basis;
}

/** Planning figures a person may lower with a reason. Soak figures from memory of cabin soak classes, running figures common practice. */
export const ZONES: Record<ZoneKind, ZoneClimate> = {
  'engine-bay': { title: 'Engine bay', maxC: 105, minC: -40, runningMaxC: 105, basis: 'from memory' },
  dash: { title: 'Behind the dash', maxC: 70, minC: -30, runningMaxC: 60, basis: 'from memory' },
  'dash-top': { title: 'Dash top', maxC: 85, minC: -30, runningMaxC: 70, basis: 'from memory' },
  'under-seat': { title: 'Under the seat', maxC: 60, minC: -30, runningMaxC: 45, basis: 'common practice' },
  console: { title: 'Centre console', maxC: 60, minC: -30, runningMaxC: 45, basis: 'common practice' },
  roof: { title: 'Roof lining', maxC: 80, minC: -30, runningMaxC: 55, basis: 'common practice' },
  'load-bay': { title: 'Boot or load bay', maxC: 60, minC: -30, runningMaxC: 45, basis: 'common practice' },
  desk: { title: 'Desk', maxC: 35, minC: 5, runningMaxC: 35, basis: 'common practice' },
  outside: { title: 'Outside the body', maxC: 60, minC: -40, runningMaxC: 60, basis: 'common practice' },
};

/** Climate of a zone kind. @throws RangeError for a kind that is not in the table. */
export function zoneClimate(kind: ZoneKind): ZoneClimate {
  const climate = ZONES[kind];
  demand(climate !== undefined, 'Unknown kind of zone', kind);
  return climate;
}
