import type { Facts, PartView, TerminalKey } from '../analysis/factsTypes.ts';
import type { Reading } from '../analysis/types.ts';
import { listed } from '../plan/listed.ts';
import { PIN_MAX_V, RAIL3 } from '../trade/logic.ts';
import { called } from './defineRule.ts';
import type { PinUse } from './pins.ts';
import { grounded, type Hop, hopsOf, isResistor, netAt, partsOn, railV } from './trace.ts';

/** A 5 V rail at its greatest, over nominal (USB and header rails: 5 V + 5 %, read). */
const RAIL_OVER = 1.05;
/** A rail with so much of its nominal volts is up. */
const UP_SHARE = 0.9;
/** More than this out of the pin other than by resistors, A: a diode holds it, and resistors move it no further. */
const HELD_A = 0.2e-3;
/** 0 V of the header, to which a pin's volts are taken. */
const ZERO = '6';
const ROUNDS = 60;

/** A pin with the resistors around it and their 5 V at the ends that lift it most. */
export interface PinCorner {
  readonly volt: number;
  /** "R1 top 5 % low, R2 low 5 % high and the 5 V 5 % high". */
  readonly words: string;
}

/** One resistor (or several side by side) on the way from the pin, seen from the pin. */
interface Branch {
  readonly near: number;
  readonly far: number;
  readonly views: readonly PartView[];
}

/** The pin's net with those that hang on it by resistors alone, and the resistors around them. */
export interface PinStar {
  readonly start: number;
  readonly free: ReadonlySet<number>;
  readonly branches: readonly Branch[];
  /** A terminal of each net beyond them that may stand higher than a pin may. */
  readonly lifting: readonly TerminalKey[];
}

/** The resistors around a pin; null where none leads to anything that stands higher than a pin may, for then none lifts it so far. */
export function pinStar(facts: Facts, use: PinUse): PinStar | null {
  const star = starOf(facts, netAt(facts, use.computer, `${use.cell.pin}`));
  return star.lifting.length > 0 ? star : null;
}

/** What a pin may come to in a reading with the resistors around it at their worst; null where a diode holds it. */
export function pinCorner(facts: Facts, use: PinUse, { start, free, branches, lifting }: PinStar, reading: Reading): PinCorner | null {
  const zero = `${use.computer.part.id}.${ZERO}`;
  const lifts = (key: TerminalKey): boolean => (facts.across(key, zero, reading.state, reading.band) ?? 0) > PIN_MAX_V;
  if (!lifting.some(lifts)) return null;
  const nominal = new Map<number, number>();
  for (const net of new Set([...free, ...branches.map((b) => b.far)])) {
    const volt = facts.across(facts.netTerminals(net)[0] ?? '', zero, reading.state, reading.band);
    if (volt === null) return null;
    nominal.set(net, volt);
  }
  const rising = (b: Branch): boolean => nominal.get(b.far)! > nominal.get(b.near)!;
  const siemens = (b: Branch, side: 0 | 1): number =>
    b.views.reduce((sum, v) => sum + 1 / (v.s.num('ohm') * (1 + side * (rising(b) ? -1 : 1) * v.s.num('tol'))), 0);
  const into = (net: number): number => flowsInto(branches, net, (b) => siemens(b, 0), nominal);
  if (into(start) > HELD_A) return null;
  const held = new Map([...free].map((net) => [net, into(net)]));
  const volts = new Map([...nominal].map(([net, v]) => [net, free.has(net) ? v : unkind(facts, net, v)]));
  for (let round = 0; round < ROUNDS; round++) {
    for (const net of free) {
      const here = branches.filter((b) => b.near === net || b.far === net);
      const all = here.reduce((sum, b) => sum + siemens(b, 1), 0);
      const pulled = here.reduce((sum, b) => sum + siemens(b, 1) * volts.get(b.near === net ? b.far : b.near)!, 0);
      volts.set(net, (pulled - held.get(net)!) / all);
    }
  }
  return {
    volt: volts.get(start)!,
    words: inWords(
      branches,
      rising,
      [...nominal].some(([net, v]) => !free.has(net) && unkind(facts, net, v) > v),
    ),
  };
}

/** Does a net stand, or may it stand, higher than a pin may? */
function mayLift(facts: Facts, net: number): boolean {
  return !grounded(facts, net) && (railV(facts, net) ?? Number.POSITIVE_INFINITY) > PIN_MAX_V;
}

/** Current that the resistors bring into a net, A. */
function flowsInto(branches: readonly Branch[], net: number, siemens: (b: Branch) => number, volts: ReadonlyMap<number, number>): number {
  return branches.reduce((sum, b) => {
    const other = b.near === net ? b.far : b.far === net ? b.near : null;
    return other === null ? sum : sum + siemens(b) * (volts.get(other)! - volts.get(net)!);
  }, 0);
}

function starOf(facts: Facts, start: number): PinStar {
  const free = new Set([start]);
  const branches: Branch[] = [];
  const done = new Set<Hop['views'][number]>();
  for (const near of free) {
    for (const hop of hopsOf(facts).get(near) ?? []) {
      if (!isResistor(hop) || done.has(hop.views[0]!)) continue;
      for (const v of hop.views) done.add(v);
      branches.push({ near, far: hop.to, views: hop.views });
      if (betweenResistors(facts, hop.to)) free.add(hop.to);
    }
  }
  const lifting = branches.filter((b) => !free.has(b.far) && mayLift(facts, b.far)).map((b) => facts.netTerminals(b.far)[0] ?? '');
  return { start, free, branches, lifting };
}

/** Do nothing but resistors and joints hang on a net? */
function betweenResistors(facts: Facts, net: number): boolean {
  if (grounded(facts, net) || railV(facts, net) !== null) return false;
  return partsOn(facts, net).every(({ view }) => view.kind.kind === 'resistor' || JOINTS.has(view.kind.kind));
}

const JOINTS: ReadonlySet<string> = new Set(['splice', 'connector', 'terminal-strip']);

/** Volts of what stands firm: a 5 V rail that is up may be 5 % higher. */
function unkind(facts: Facts, net: number, volt: number): number {
  const rail = railV(facts, net);
  if (rail === null || rail <= RAIL3.maxV || rail >= facts.plan.vehicle.systemV || volt < UP_SHARE * rail) return volt;
  return Math.max(volt, rail * RAIL_OVER);
}

function inWords(branches: readonly Branch[], rising: (b: Branch) => boolean, railHigh: boolean): string {
  const words = branches.flatMap((b) => b.views.map((v) => `${called(v)} ${Number((v.s.num('tol') * 100).toPrecision(3))} % ${rising(b) ? 'low' : 'high'}`));
  if (railHigh) words.push(`its 5 V ${Math.round((RAIL_OVER - 1) * 100)} % high`);
  return listed(words);
}
