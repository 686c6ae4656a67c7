import type { Facts, PartView, TerminalKey } from '../analysis/factsTypes.ts';
import type { SourceFact } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
import { LOGIC, RAIL3 } from '../trade/logic.ts';
import { ctrShare, darkA, OPTO_VF_MIN_V } from '../trade/optocouplers.ts';
import { CTR_DERATING, DIODES, OPTOS, type OptoFacts, type OptoType } from '../trade/semiconductors.ts';
import { once } from './once.ts';
import { insidePull, isRail3, nearNets, type PinUse, parallelOhm, pinUseAt, pinUses, pinUsesOn, pullsOn } from './pins.ts';
import { grounded, type Hop, isResistor, netAt, type Way, waysFrom } from './trace.ts';

/** What feeds a lamp or sensing LED, and between which volts. */
export interface Supply {
  readonly view: PartView;
  readonly source: SourceFact;
  readonly key: TerminalKey;
  readonly loV: number;
  readonly hiV: number;
  /** Comes from the vehicle: has surges and spikes. */
  readonly vehicle: boolean;
}

/** An LED's whole circuit: supply, resistors in line, LED, ground. */
export interface LedCircuit {
  readonly supply: Supply;
  readonly hops: readonly Hop[];
  /** Those of them that lie between cathode and ground, in that order. */
  readonly back: readonly Hop[];
  readonly resistors: readonly PartView[];
  /** Sum of the resistors in line at their least and most, ohm. */
  readonly leastOhm: number;
  readonly mostOhm: number;
  /** What diodes in line lose at most, V. */
  readonly diodeV: number;
  /** Nets from the supply to the LED's anode, and from its cathode to ground. */
  readonly above: ReadonlySet<number>;
  readonly below: ReadonlySet<number>;
}

const IN_LINE: ReadonlySet<string> = new Set(['fuse', 'contact', 'conductor']);

/** The circuit through an LED between two terminals of a part; null when it is not closed or nothing known feeds it. */
export function ledCircuit(facts: Facts, led: PartView, anode: string, cathode: string): LedCircuit | null {
  // An LED that is bridged gets nothing.
  if (netAt(facts, led, anode) === netAt(facts, led, cathode)) return null;
  const own = (hop: Hop): boolean => hop.views.includes(led);
  const inLine = (hop: Hop): boolean => IN_LINE.has(hop.link.type) || isResistor(hop);
  const up = waysFrom(
    facts,
    netAt(facts, led, anode),
    (h) => !own(h) && (inLine(h) || (h.link.type === 'diode' && !h.forward)),
    (net) => grounded(facts, net),
  );
  const down = waysFrom(
    facts,
    netAt(facts, led, cathode),
    (h) => !own(h) && (inLine(h) || (h.link.type === 'diode' && h.forward)),
    (net) => grounded(facts, net),
  );
  const source = nearest(facts, up);
  const ground = [...down].filter(([net]) => grounded(facts, net) || sinks(facts, net)).sort(([, a], [, b]) => a.ohm - b.ohm)[0];
  if (!source || !ground) return null;
  const hops = [...source.way.hops, ...ground[1].hops];
  const resistors = hops.filter(isResistor).flatMap((h) => h.views);
  const sum = (factor: (v: PartView) => number): number =>
    hops.filter(isResistor).reduce((all, h) => all + 1 / h.views.reduce((s, v) => s + 1 / (v.s.num('ohm') * factor(v)), 0), 0);
  return {
    supply: source.supply,
    hops,
    back: ground[1].hops,
    resistors,
    leastOhm: sum((v) => 1 - v.s.num('tol')),
    mostOhm: sum((v) => 1 + v.s.num('tol')),
    diodeV: hops.filter((h) => h.link.type === 'diode').length * DIODES['1n4148'].vFMaxV,
    above: new Set([netAt(facts, led, anode), ...source.way.hops.map((h) => h.to)]),
    below: new Set([netAt(facts, led, cathode), ...ground[1].hops.map((h) => h.to)]),
  };
}

/** The source of least resistance to the anode. */
function nearest(facts: Facts, up: ReadonlyMap<number, Way>): { supply: Supply; way: Way } | null {
  let best: (Sourced & { readonly way: Way }) | null = null;
  for (const [net, way] of up) {
    for (const candidate of sourcesByNet(facts).get(net) ?? []) {
      const { view, source, at } = candidate;
      // Of equals the part that was made first.
      if (best && (way.ohm > best.way.ohm || (way.ohm === best.way.ohm && at >= best.at))) continue;
      // A pin that watches is no source.
      if (source.kind === 'pin' && !drives(facts, `${view.part.id}.${source.terminal}`)) continue;
      best = { ...candidate, way };
    }
  }
  return best && { supply: supplyOf(facts, best.view, best.source), way: best.way };
}

interface Sourced {
  readonly view: PartView;
  readonly source: SourceFact;
  /** Place in the order of the parts. */
  readonly at: number;
}

const sourcesByNet = once((facts): ReadonlyMap<number, readonly Sourced[]> => {
  const map = new Map<number, Sourced[]>();
  let at = 0;
  for (const view of facts.parts.values()) {
    for (const source of view.facts.sources ?? []) {
      at += 1;
      if (source.kind === 'audio') continue;
      gather(map, netAt(facts, view, source.terminal), { view, source, at });
    }
  }
  return map;
});

function drives(facts: Facts, key: TerminalKey): boolean {
  const mode = pinUseAt(facts, key)?.mode;
  return mode === 'out' || mode === 'stopped-signal';
}

/** A pin or a driving transistor that takes the current in. */
function sinks(facts: Facts, net: number): boolean {
  return pinUsesOn(facts, net).some((u) => u.mode === 'out');
}

/** Tolerance of a 5 V rail whose part states none. */
const RAIL_TOL = 0.05;

function supplyOf(facts: Facts, view: PartView, source: SourceFact): Supply {
  const key = `${view.part.id}.${source.terminal}`;
  const base = { view, source, key, vehicle: false };
  switch (source.kind) {
    case 'battery':
    case 'feed':
      return { ...base, loV: facts.corners.loV, hiV: facts.corners.hiV, vehicle: true };
    case 'rail':
      return { ...base, loV: RAIL3.minV, hiV: RAIL3.maxV };
    case 'pin':
      return { ...base, loV: LOGIC.unknown.vOhMinV, hiV: RAIL3.maxV };
    default: {
      const tol = view.kind.settings.some((s) => s.key === 'setTol') ? view.s.num('setTol') : RAIL_TOL;
      return { ...base, loV: source.nominalV * (1 - tol), hiV: source.nominalV * (1 + tol) };
    }
  }
}

/** An optocoupler that watches a vehicle line, with what is known of either side. */
export interface Sensor {
  readonly opto: PartView;
  readonly data: OptoFacts;
  readonly led: LedCircuit | null;
  readonly output: Output | null;
}

/** The transistor's side. */
export interface Output {
  readonly use: PinUse;
  /** `collector`: pulls the pin low while lit. `emitter`: pulls it up. */
  readonly form: 'collector' | 'emitter';
  /** External resistors towards the resting level. */
  readonly pulls: readonly PartView[];
  readonly leastPullOhm: number;
  readonly mostPullOhm: number;
}

/** Every optocoupler whose LED the vehicle feeds or whose circuit is still open. */
export const sensors = once((facts): readonly Sensor[] =>
  facts.ofKind('optocoupler').map((opto) => ({
    opto,
    data: OPTOS[opto.s.str('type') as OptoType],
    led: ledCircuit(facts, opto, 'A', 'K'),
    output: outputOf(facts, opto),
  })),
);

function outputOf(facts: Facts, opto: PartView): Output | null {
  const [c, e] = [netAt(facts, opto, 'C'), netAt(facts, opto, 'E')];
  const at = (net: number): PinUse | undefined => {
    const near = [...nearNets(facts, net)].flatMap((n) => pinUsesOn(facts, n));
    // Of several the first in header order.
    return near.length < 2 ? near[0] : pinUses(facts).find((u) => near.includes(u));
  };
  const form = grounded(facts, e) && at(c) ? 'collector' : at(e) ? 'emitter' : null;
  const use = form === 'collector' ? at(c) : form === 'emitter' ? at(e) : undefined;
  if (!form || !use) return null;
  const pulls = pullsOn(facts, use.nets)
    .filter((p) => (form === 'collector' ? isRail3(p.volt) : p.volt === 0))
    .map((p) => p.view);
  const inside = insidePull(use, form === 'collector' ? 'up' : 'down');
  return { use, form, pulls, ...pullOhms(pulls, inside) };
}

function pullOhms(pulls: readonly PartView[], inside: { readonly least: number; readonly most: number }) {
  return {
    leastPullOhm: 1 / (1 / parallelOhm(pulls, 'least') + 1 / inside.least),
    mostPullOhm: 1 / (1 / parallelOhm(pulls, 'most') + 1 / inside.most),
  };
}

/** The pin must be pulled this far, V, with a margin of a fifth in current (common practice, no source). */
const LOW_V = 0.4;
const DRIVE_MARGIN = 1.2;
/** Distance that the resting level keeps from the threshold, V (common practice, no source). */
const REST_MARGIN_V = 0.3;

/** LED current at its least, A: weakest supply, greatest forward voltage and resistance. */
export function leastLedA(led: Pick<LedCircuit, 'supply' | 'diodeV'>, data: OptoFacts, mostOhm: number): number {
  return Math.max(0, (led.supply.loV - led.diodeV - data.vFMaxV) / mostOhm);
}

/** LED current at its greatest with a supply, A. */
export function greatestLedA(volt: number, leastOhm: number): number {
  return Math.max(0, volt - OPTO_VF_MIN_V) / leastOhm;
}

/** Collector current that is sure to be there at the weakest corner, after ten years and in the heat, A. */
export function sureA(data: OptoFacts, ledA: number): number {
  return ledA * data.ctrMin * CTR_DERATING * ctrShare(data, ledA);
}

/** Collector current that the pull asks for before the pin's level is sure, with its margin, A. */
export function neededA(form: Output['form'], use: Pick<PinUse, 'logic'>, leastPullOhm: number): number {
  const volt = form === 'collector' ? RAIL3.maxV - LOW_V : use.logic.vIhMinV + REST_MARGIN_V;
  return (DRIVE_MARGIN * volt) / leastPullOhm;
}

/** Resting level of the pin with the LED dark and everything hot, V, and the level it must keep to. */
export function restingV(form: Output['form'], use: Pick<PinUse, 'logic'>, data: OptoFacts, tempC: number, mostPullOhm: number) {
  const leakV = (darkA(data, tempC) + use.logic.leakA) * mostPullOhm;
  return form === 'collector'
    ? {
        volt: RAIL3.minV - leakV,
        limitV: use.logic.vIhMinV + REST_MARGIN_V,
        leakA: leakV / mostPullOhm,
        holds: RAIL3.minV - leakV >= use.logic.vIhMinV + REST_MARGIN_V,
      }
    : { volt: leakV, limitV: use.logic.vIlMaxV - REST_MARGIN_V, leakA: leakV / mostPullOhm, holds: leakV <= use.logic.vIlMaxV - REST_MARGIN_V };
}
