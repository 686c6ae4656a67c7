import type { Facts, PartView } from '../analysis/factsTypes.ts';
import type { VehicleState } from '../plan/types.ts';
import { CRANK_RIPPLE_V, crankProfile, crankS } from '../trade/supply.ts';
import { type Converter, vehicleRail } from './rails.ts';
import { carriedBy } from './storeHold.ts';
import { grounded, type Hop, netAt, waysFrom } from './trace.ts';

/** Below this there is no supply to speak of, V. */
const DEAD_V = 0.5;
/** Electrolytics have a fifth less at -30 degrees C (common practice, no source), falling evenly from 20 degrees C. */
const COLD = { share: 0.2, fromC: 20, overK: 50 } as const;

/** The starting profile as a converter's input sees it, and what capacitors there do about it. */
export interface CrankDip {
  /** Lowest input that it works with, V. */
  readonly needV: number;
  /** Its input just before the starter takes hold, V. */
  readonly beforeV: number;
  /** Its input in the trough of the plateau, and for how long the plateau lasts. */
  readonly troughV: number;
  readonly plateauS: number;
  /** Its input in the first dip, and how long fall, dip and rise take together. */
  readonly dipV: number;
  readonly dipS: number;
  /** What it takes meanwhile, W. */
  readonly watt: number;
  /** Capacitors at its input, and what they are sure to have when cold, F. */
  readonly capacitors: readonly PartView[];
  readonly sureF: number;
  /** What it would take, sure to be there, F; Infinity where no capacitor helps. */
  readonly needF: number;
  /** Something lets current only towards the capacitors, so that the starter does not empty them. */
  readonly blocked: boolean;
  /** A store carries it through the whole of a start. */
  readonly carried: boolean;
}

/** Null where the line is dead while starting anyway, or when nothing was solved. */
export function crankDip(facts: Facts, c: Converter): CrankDip | null {
  const minus = `${c.view.part.id}.${c.load.minus}`;
  const { systemV, dipLevel } = facts.plan.vehicle;
  const way = vehicleRail(facts).get(c.inKey);
  const cut = cutBefore(facts);
  const startV = cut ? sagged(facts, c, crankProfile(systemV, dipLevel).plateauV - CRANK_RIPPLE_V / 2) : facts.across(c.inKey, minus, 'START', 'low');
  const beforeV = facts.across(c.inKey, minus, 'RUN_STOPPED', cut ? 'typical' : 'low');
  const alive = (facts.across(c.inKey, minus, 'START', 'typical') ?? 0) > c.load.nominalV / 2;
  if (!way || startV === null || beforeV === null || !alive || startV < DEAD_V) return null;
  const troughV = loadedV(facts, c, { v: startV, state: 'START' });
  const profile = crankProfile(systemV, dipLevel);
  const needV = c.load.minV ?? 0;
  const dipV = Math.max(0, troughV + profile.dipV - (profile.plateauV - CRANK_RIPPLE_V / 2));
  const dipS = profile.fallS + profile.dipS + profile.riseS;
  const watt = inputW(facts, c);
  const capacitors = capacitorsAt(facts, c);
  return {
    needV,
    beforeV,
    troughV,
    plateauS: profile.plateauS,
    dipV,
    dipS,
    watt,
    capacitors,
    sureF: capacitors.reduce((sum, v) => sum + v.s.num('farad') * sureShare(v), 0),
    needF: beforeV > needV ? bridgeF(watt, dipS, beforeV, needV) : Number.POSITIVE_INFINITY,
    blocked: way.steps.some((s) => s.linkType === 'diode'),
    carried: carriedBy(facts).some((x) => x.seconds >= crankS(systemV, dipLevel) && x.converter !== null && standsBehind(facts, c, x.converter)),
  };
}

/** Has a cut-out opened in the low band before the starter took hold? It takes a minute or more; in a start it stays closed. */
export function cutBefore(facts: Facts): boolean {
  return facts.ofKind('low-voltage-cutout').some((v) => !facts.deviceOn(v.part.id, 'contact', 'RUN_STOPPED', 'low'));
}

/** Input at a supply below the lowest one designs for, from what is lost on the way there. Null when that was not solved. */
function sagged(facts: Facts, c: Converter, supplyV: number): number | null {
  const designV = facts.designAcross(c.inKey, `${c.view.part.id}.${c.load.minus}`);
  return designV === null ? null : designV - (facts.corners.loV - supplyV);
}

/** The converter itself, or one that it feeds. */
function standsBehind(facts: Facts, c: Converter, other: Converter): boolean {
  return other.view === c.view || facts.reach(c.outKey, ['fuse', 'contact', 'conductor', 'diode']).has(other.inKey);
}

/** Capacitance that gives a power for a time while it falls from one voltage to another, F: `2 P t / (V1² - V2²)`. */
export function bridgeF(watt: number, seconds: number, fromV: number, toV: number): number {
  return (2 * watt * seconds) / (fromV ** 2 - toV ** 2);
}

/** Is the first dip got over, by the supply itself, by capacitors or by a store? */
export function bridged(d: CrankDip): boolean {
  return d.dipV >= d.needV || d.carried || (d.blocked && d.sureF >= d.needF);
}

/** Share of its printed capacitance that a capacitor is sure to have in the cold. */
export function sureShare(view: PartView): number {
  const cold = view.s.flag('polarised') ? 1 - (COLD.share * Math.max(0, COLD.fromC - view.minC)) / COLD.overK : 1;
  return (1 - view.s.num('tol')) * Math.max(0, cold);
}

/** Its input in the low band with the converter running: one that has let go draws nothing and leaves its input too high. */
export function loadedV(facts: Facts, c: Converter, least: { v: number; state: VehicleState }): number {
  if (c.view.kind.kind !== 'step-down' || facts.deviceOn(c.view.part.id, 'run', least.state, 'low')) return least.v;
  const designV = facts.designAcross(c.inKey, `${c.view.part.id}.${c.load.minus}`) ?? facts.corners.loV;
  return least.v - (facts.corners.loV - designV) * (facts.corners.loV / Math.max(1, least.v));
}

/** Capacitors from the converter's input, over wires, chokes and fuses, to ground. */
function capacitorsAt(facts: Facts, c: Converter): PartView[] {
  const near = (h: Hop): boolean =>
    !h.views.includes(c.view) && h.views[0]!.kind.kind !== 'reverse-guard' && (h.link.type === 'conductor' || h.link.type === 'fuse');
  const ways = waysFrom(facts, facts.netOf(c.inKey), near, (net) => grounded(facts, net));
  return facts.ofKind('capacitor').filter((v) => ways.has(netAt(facts, v, '+')) && grounded(facts, netAt(facts, v, '-')));
}

/** What goes into a converter before the starter takes hold, W; at the lowest supply where it does not run then. */
function inputW(facts: Facts, c: Converter): number {
  const element = c.view.kind.kind === 'linear-regulator' ? 'reg' : 'conv';
  const minus = `${c.view.part.id}.${c.load.minus}`;
  const volt = facts.across(c.inKey, minus, 'RUN_STOPPED', 'low') ?? 0;
  const now = Math.abs(volt * (facts.elementA(c.view.part.id, element, 'RUN_STOPPED', 'low', 'in') ?? 0));
  const design = Math.abs((facts.designAcross(c.inKey, minus) ?? 0) * (facts.designElementA(c.view.part.id, element, 'in') ?? 0));
  return Math.max(now, design);
}
