import type { Id } from '../../plan/types.ts';
import { selfDischargeA, USABLE_SHARE } from '../../trade/battery.ts';
import { parkedReport, partWatts } from '../power.ts';
import { walk } from '../readings.ts';
import type { ParkedReport } from '../types.ts';
import type { TimeBase } from './base.ts';
import type { ParkedWeeks } from './types.ts';
import { called } from './words.ts';

/** Points on the curve at most, and the longest time shown, days. */
const MOST_POINTS = 200;
const LONGEST_DAYS = 730;
/** The curve goes on a little past the last crossing. */
const PAST = 1.15;
/** Less than this is not worth a change, days. */
const WORTH_DAYS = 0.1;

/**
 * State of charge of a full battery over the weeks the vehicle stands, with and without the build: the vehicle's own
 * draw, the build's in the parked state of the typical band with every delay run out, and self-discharge at
 * the vehicle's own temperature while it stands. Charge falls
 * in straight lines: nothing drawn depends on it. The engine starts down to 60 % (common practice).
 * @throws Error when the parked state cannot be computed
 */
export function parkedWeeks(base: TimeBase): ParkedWeeks {
  const { graph } = base;
  const { vehicle } = graph.plan;
  const parked = parkedOf(base);
  if (!Number.isFinite(parked.buildA)) throw new Error('The parked state has no solution: see the findings for what chatters or floats.');
  const vehicleA = vehicle.parkedA + selfDischargeA(vehicle.batteryAh, vehicle.parkedC);
  const allA = vehicleA + parked.buildA;
  const daysAt = (amp: number): number => (USABLE_SHARE * vehicle.batteryAh) / (24 * amp);
  const shareAt = (days: number, amp: number): number => Math.max(0, 1 - (24 * days * amp) / vehicle.batteryAh);
  const endDays = Math.min(LONGEST_DAYS, Math.max(7, Math.ceil(PAST * daysAt(vehicleA))));
  const stepDays = Math.max(1, Math.ceil(endDays / MOST_POINTS));
  const days = Float64Array.from({ length: Math.floor(endDays / stepDays) + 1 }, (_, k) => k * stepDays);
  const gain = (savedA: number): number => daysAt(allA - savedA) - daysAt(allA);
  return {
    days,
    chargeWith: days.map((d) => shareAt(d, allA)),
    chargeWithout: days.map((d) => shareAt(d, vehicleA)),
    startLimit: 1 - USABLE_SHARE,
    daysToLimit: daysAt(allA),
    daysToLimitWithout: daysAt(vehicleA),
    gains: [
      ...parked.shares.map((s) => ({ part: s.part as Id | null, what: `Cut ${called(graph.views.get(s.part)!)} off while parked`, days: gain(s.amp) })),
      ...(vehicle.isolator ? [{ part: null, what: 'Pull the battery isolator', days: gain(vehicle.parkedA + parked.buildA) }] : []),
    ]
      .filter((g) => g.days >= WORTH_DAYS)
      .sort((a, b) => b.days - a.days),
  };
}

/** The build's draw at the end of the typical walk. */
function parkedOf({ graph, solver }: TimeBase): ParkedReport {
  const moment = { state: 'OFF_ASLEEP', band: 'typical' } as const;
  const settled = walk(solver, 'typical').settledAt.get('OFF_ASLEEP')!;
  const watts = partWatts(solver.network, solver.elementsOf(moment, settled.states), settled);
  return parkedReport(graph, watts, solver.maker.supply('OFF_ASLEEP', 'typical'));
}
