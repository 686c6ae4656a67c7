import { type Trace, transient } from '../../circuit/time/index.ts';
import type { Band, Id, VehicleState } from '../../plan/types.ts';
import { eventProfiles, type Profile } from '../../trade/profiles.ts';
import { walk } from '../readings.ts';
import { type TimeBase, untouched } from './base.ts';
import { whereOf } from './cycle.ts';
import { type Gauge, gaugesOf, type Leg } from './gauges.ts';
import { MOST_STEPS, pairsOf } from './run.ts';
import { thinned } from './thin.ts';
import { TimedPlan } from './timedPlan.ts';
import type { EventReport, Stress } from './types.ts';

/** No source is stiffer than this, ohm. */
const LEAST_OHM = 1e-3;
/** Points of a supply's curve that are handed out. */
const MOST_POINTS = 400;
/** What stays within this of where it was before the event is not the event's doing. */
const UNTOUCHED = 1.02;
/** Below this share of what a part stands an event is nothing to it. */
const LEAST_SHARE = 0.01;

export interface EventOptions {
  /** Where the key stands; absent = where it is in that event. */
  readonly state?: VehicleState;
  /** Absent = high: cold wires, light loads; low for the starting profile. */
  readonly band?: Band;
}

/** What one place saw in an event, V, and when. */
export interface Seen {
  readonly id: 'battery' | 'input' | 'five';
  readonly part: Id | null;
  readonly leastV: number;
  readonly leastS: number;
  readonly mostV: number;
  readonly mostS: number;
}

export interface EventRun extends EventReport {
  readonly seen: readonly Seen[];
}

/** Every event that a plan has to reckon with, worst part first in each. Yields the share done. */
export function* events(base: TimeBase): Generator<number, EventReport[]> {
  const { systemV, dipLevel, centralClamping } = base.graph.plan.vehicle;
  const profiles = eventProfiles(systemV, dipLevel).filter((p) => p.id !== (centralClamping === 'yes' ? 'load-dump-a' : 'load-dump-b'));
  const reports: EventReport[] = [];
  for (const profile of profiles) {
    const { seen: _seen, ...report } = runEvent(base, profile);
    reports.push(report);
    yield reports.length / profiles.length;
  }
  return reports;
}

/** The same, all at once. */
export function allEvents(base: TimeBase): EventReport[] {
  const steps = events(base);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * What the build goes through while the supply follows a profile behind its stiffest source, from the settled state of a
 * key position. Parts are in the middle of their tolerance and taken to survive: what an overloaded part does after that
 * nobody knows.
 */
export function runEvent(of: TimeBase, profile: Profile, options: EventOptions = {}): EventRun {
  const base = untouched(of);
  const { solver } = base;
  const { state, band } = { ...momentOf(profile), ...options };
  const ohm = Math.max(LEAST_OHM, profile.sourceOhm[0]);
  const pulse = profile.pulse;
  const plan = new TimedPlan(base, {
    band,
    phases: [{ fromS: 0, instant: solver.maker.at({ state, band }), open: [] }],
    supply: profile,
    sourceOhm: (tS) => (pulse && (tS <= pulse[0] || tS >= pulse[1]) ? LEAST_OHM : ohm),
  });
  const pairs = pairsOf(base);
  const gauges = gaugesOf(base, profile);
  const nodes = [...new Set([...pairs, ...gauges.map((g) => g.from)].flatMap((p) => ('plus' in p ? [p.plus, p.minus] : [])))].filter((n) => n !== '0');
  const legs = legsOf(gauges);
  const trace = transient(solver.network, plan, {
    untilS: profile.lastsS,
    // The starting profile sets out from a sound battery: what a flat one would have cut off long before is closed.
    states: walk(solver, band === 'low' ? 'typical' : band).statesAt.get(state)!,
    watch: { nodes, elements: legs },
    mostSteps: MOST_STEPS,
  });
  const look = new Look(trace, nodes, legs);
  const battery = look.across('battery', '0');
  return {
    profile: profile.id,
    title: profile.title,
    state,
    band,
    outcome: trace.outcome === 'done' ? 'done' : 'stuck',
    stuck: trace.stuck && { tS: trace.stuck.tS, where: whereOf(base, trace.stuck.node), why: trace.stuck.why },
    supply: thinned(trace.tS, battery, MOST_POINTS),
    stress: gauges
      .flatMap((g) => stressOf(g, look) ?? [])
      .filter((s) => s.share >= LEAST_SHARE)
      .sort((a, b) => b.share - a.share),
    seen: pairs.map(({ id, part, plus, minus }) => {
      const volts = look.across(plus, minus);
      const least = extreme(volts, (a, b) => a < b);
      const most = extreme(volts, (a, b) => a > b);
      return { id, part, leastV: volts[least]!, leastS: trace.tS[least]!, mostV: volts[most]!, mostS: trace.tS[most]! };
    }),
  };
}

/** Where the key stands when it happens: engine running, but for the events that need it stopped. */
function momentOf({ id }: Profile): { readonly state: VehicleState; readonly band: Band } {
  if (id === 'starting') return { state: 'RUN_STOPPED', band: 'low' };
  return { state: id === 'jump-start' || id === 'reversed-battery' || id === 'pulse-2b' ? 'RUN_STOPPED' : 'RUN_CHARGING', band: 'high' };
}

function legsOf(gauges: readonly Gauge[]): readonly Leg[] {
  const legs = new Map<string, Leg>();
  for (const { from } of gauges) if ('leg' in from) legs.set(legKey(from.leg), from.leg);
  return [...legs.values()];
}

const legKey = ({ id, port }: Leg): string => (port ? `${id}:${port}` : id);

/** What was recorded, by name. */
class Look {
  constructor(
    readonly trace: Trace,
    private readonly nodes: readonly string[],
    private readonly legs: readonly Leg[],
  ) {}

  across(plus: string, minus: string): Float64Array {
    const p = this.trace.volts[this.nodes.indexOf(plus)];
    const m = this.trace.volts[this.nodes.indexOf(minus)];
    return this.trace.tS.map((_, k) => (p?.[k] ?? 0) - (m?.[k] ?? 0));
  }

  amps(leg: Leg): Float64Array {
    return this.trace.amps[this.legs.findIndex((l) => legKey(l) === legKey(leg))]!;
  }
}

/** What an event does to one figure; null where it does nothing to it. */
function stressOf({ part, kind, unit, limit, from }: Gauge, look: Look): Stress | null {
  const { tS, fuseHeat } = look.trace;
  const row = (peak: number, atS: number | null, share = peak / limit): Stress => ({ part, kind, unit, peak, limit, share, atS });
  if (from.of === 'heat') return row(fuseHeat.get(from.fuse) ?? 0, null);
  if (from.of === 'amps') {
    const amps = look.amps(from.leg).map(Math.abs);
    return rowAt(amps, tS, row);
  }
  const volts = look.across(from.plus, from.minus);
  switch (from.of) {
    case 'most': {
      const most = rowAt(volts, tS, row);
      return most.share < 1 && most.peak <= UNTOUCHED * volts[0]! ? null : most;
    }
    case 'reversed':
      return rowAt(
        volts.map((v) => Math.max(0, -v)),
        tS,
        row,
      );
    case 'least': {
      const k = extreme(volts, (a, b) => a < b);
      const least = Math.max(0, volts[k]!);
      if (least > limit && UNTOUCHED * least >= volts[0]!) return null;
      // The nearer to its limit from above the worse; at it, all is used.
      return row(least, tS[k]!, least > 0 ? limit / least : Number.POSITIVE_INFINITY);
    }
    default: {
      const amps = look.amps(from.leg);
      const watts = volts.map((v, k) => Math.max(0, v * amps[k]!));
      if (from.of === 'watts') return rowAt(watts, tS, row);
      const { most, atS } = mostWithin(tS, watts, from.withinS);
      return row(from.perS ? most / from.withinS : most, atS);
    }
  }
}

function rowAt(values: Float64Array, tS: Float64Array, row: (peak: number, atS: number) => Stress): Stress {
  const k = extreme(values, (a, b) => a > b);
  return row(values[k]!, tS[k]!);
}

function extreme(values: Float64Array, isBetter: (a: number, b: number) => boolean): number {
  let best = 0;
  for (let k = 1; k < values.length; k++) if (isBetter(values[k]!, values[best]!)) best = k;
  return best;
}

/** The most of a power's energy that falls into any span of a length, J: straight lines between the steps. */
function mostWithin(tS: Float64Array, watts: Float64Array, spanS: number): { readonly most: number; readonly atS: number } {
  const sums = new Float64Array(tS.length);
  for (let k = 1; k < tS.length; k++) sums[k] = sums[k - 1]! + 0.5 * (watts[k]! + watts[k - 1]!) * (tS[k]! - tS[k - 1]!);
  let best = { most: 0, atS: tS[0] ?? 0 };
  let from = 0;
  for (let k = 1; k < tS.length; k++) {
    while (from + 1 < k && tS[from + 1]! <= tS[k]! - spanS) from++;
    // Within the step where the span begins the power is taken as its mean.
    const stepS = tS[from + 1]! - tS[from]!;
    const over = Math.max(0, tS[k]! - spanS - tS[from]!);
    const cut = stepS > 0 ? Math.min(1, over / stepS) * (sums[from + 1]! - sums[from]!) : 0;
    const sum = sums[k]! - sums[from]! - cut;
    if (sum > best.most) best = { most: sum, atS: tS[k]! };
  }
  return best;
}
