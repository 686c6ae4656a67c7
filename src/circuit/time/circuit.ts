import { isAmbiguous } from '../branch.ts';
import { loadValues } from '../load.ts';
import type { Network } from '../network.ts';
import { newton, type Outcome, type Setting } from '../newton.ts';
import { CODE, prepareOne, STRIDE } from '../ports.ts';
import type { Capacitor, Element, Inductor } from '../types.ts';
import { fallFrom } from './fall.ts';
import type { Moment } from './moment.ts';
import { addBranch, Stores } from './stores.ts';

const IN_TIME: Setting = { lambda: 1, gmin: 0, towards: null, isWarm: true, longest: 20 };
/** Span over which an inductor's current is held at an instant, s: so short that 12 V across 1 uH move it by 12 uA. */
const INSTANT_S = 1e-12;
/** Spans after which the network may have found a state when it has none at the instant itself, s. */
const LATER_S = [1e-9, 1e-7];
/** Where an inductor that has lost its path would raise more than this, the air itself gives way and its current ends, V. */
const ARC_V = 1e4;
/** Span within which it then ends, s. */
const ARC_S = 1e-6;
const MOST_ARCS = 4;

/**
 * A network whose stores are sources behind a resistance, which is what an implicit step makes of them: places, buffers
 * and elimination order of the network at rest serve as they are.
 */
export class TimedCircuit {
  readonly network: Network;
  readonly stores: Stores;
  /** Matrix of the linear elements without the stores. */
  private readonly base: Float64Array;
  private readonly stand: Element[];
  private elements: readonly Element[] = [];

  constructor(
    network: Network,
    private readonly elementsAt: (tS: number) => readonly Element[],
  ) {
    this.stores = new Stores(network);
    this.network = this.stores.asSources();
    this.base = new Float64Array(network.work.linearValues.length);
    this.stand = new Array<Element>(network.kinds.length);
  }

  /** Takes the elements of a time. Levels of sources and loads are patched; anything else lays the network down anew. */
  private load(tS: number): void {
    const next = this.elementsAt(tS);
    const last = this.elements;
    if (next === last) return;
    this.elements = next;
    if (next.length !== last.length || !this.patch(next, last)) this.layDown();
  }

  private patch(next: readonly Element[], last: readonly Element[]): boolean {
    const { linear, one, two, kinds, work } = this.network;
    for (let p = 0; p < linear.count; p++) {
      const k = linear.element[p]!;
      const e = next[k]!;
      const old = last[k]!;
      if (e === old) continue;
      if (e.kind !== 'source' || old.kind !== 'source' || e.ohm !== old.ohm) return false;
      work.linearV[p] = e.volt;
    }
    for (let p = 0; p < one.count; p++) {
      const k = one.element[p]!;
      const e = next[k]!;
      if (e === last[k]) continue;
      if (e.kind !== kinds[k] || (e.kind !== 'current' && e.kind !== 'power')) return false;
      prepareOne(e, work.parOne, p * STRIDE);
    }
    for (let p = 0; p < two.count; p++) if (next[two.element[p]!] !== last[two.element[p]!]) return false;
    return true;
  }

  private layDown(): void {
    const { elements, stand, stores, network, base } = this;
    stand.length = elements.length;
    for (let k = 0; k < elements.length; k++) {
      const e = elements[k]!;
      const s = stores.ofElement[k] ?? -1;
      stand[k] = s < 0 ? e : stores.read(s, e as Capacitor | Inductor);
    }
    loadValues(network, stand);
    const { linear, work } = network;
    base.fill(0);
    for (let p = 0; p < linear.count; p++) if (stores.ofElement[linear.element[p]!]! < 0) addBranch(base, linear.slots, 4 * p, work.linearG[p]!);
  }

  private layStores(inductorS: number, capacitorS: number, held: Float64Array): void {
    const { stores, network } = this;
    network.work.linearValues.set(this.base);
    for (let s = 0; s < stores.count; s++) stores.lay(s, stores.isCapacitor[s] ? capacitorS : inductorS, held[s]!);
  }

  /**
   * Solves the network at a time in an implicit stage: the held figure of each store is `from` + `spanS` x its slope.
   * Reads `m.x` as the start, fills `m`.
   */
  stage(m: Moment, tS: number, spanS: number, from: Float64Array): Outcome {
    this.load(tS);
    this.layStores(spanS, spanS, from);
    const result = newton(this.network, m.x, IN_TIME);
    if (result.status === 'solved') this.take(m, tS, spanS, from);
    return result;
  }

  /** Copies what the last solution left in the network's buffers, and what it makes of the stores. */
  private take(m: Moment, tS: number, spanS: number, from: Float64Array): void {
    const { stores } = this;
    this.takeVolts(m, tS);
    for (let s = 0; s < stores.count; s++) {
      const amp = stores.branchA(m, s);
      // A capacitor too small for so long a step follows its volts: through the resistance that stands for it less would flow.
      const follows = stores.isCapacitor[s] && stores.isCapped(s, spanS);
      m.slope[s] = follows ? (stores.across(m, s) - from[s]!) / spanS : stores.slopeAt(m, s, amp);
      m.held[s] = stores.isCapacitor[s] ? from[s]! + spanS * m.slope[s]! : amp;
    }
  }

  private takeVolts(m: Moment, tS: number): void {
    const { linear, one, work } = this.network;
    const { stores } = this;
    m.tS = tS;
    m.elements = this.elements;
    m.rest.set(work.rest);
    for (let s = 0; s < stores.count; s++) m.amps[s] = stores.branchA(m, s) + stores.leakS[s]! * stores.across(m, s);
    m.inputs.set(work.linearV);
    for (let p = 0; p < one.count; p++) {
      const code = one.code[p]!;
      m.inputs[linear.count + p] = code === CODE.current || code === CODE.power ? work.parOne[p * STRIDE]! : 0;
    }
    // A store's driving volts are no input.
    for (let s = 0; s < stores.count; s++) m.inputs[stores.place[s]!] = 0;
  }

  /**
   * Solves the network at an instant with the stores as they are in `m.held`: volts may jump, what is stored may not,
   * but for an inductor that has lost every path. Of several states of a load the one that the network itself falls
   * to is taken, with `falls` even where the present one still stands. Reads `m.x` as the start, fills `m`.
   */
  instant(m: Moment, tS: number, falls = false): Outcome {
    const { stores } = this;
    this.load(tS);
    const start = m.x.slice();
    for (let arcs = 0; ; arcs++) {
      this.layStores(INSTANT_S, 0, m.held);
      const result = this.settle(m.x, start, falls);
      if (result.status !== 'solved') return this.later(m, tS, start, result);
      this.takeVolts(m, tS);
      const lost = Array.from({ length: stores.count }, (_, s) => s).filter((s) => this.hasLostPath(m, s));
      if (lost.length === 0 || arcs === MOST_ARCS) break;
      m.x.set(start);
      this.layStores(ARC_S, 0, m.held);
      const arc = this.settle(m.x, start, falls);
      if (arc.status !== 'solved') return this.later(m, tS, start, arc);
      for (const s of lost) m.held[s] = stores.branchA(m, s);
      m.x.set(start);
    }
    for (let s = 0; s < stores.count; s++) {
      if (!stores.isCapacitor[s] && !(stores.size[s]! > 0)) m.held[s] = m.amps[s]!;
      m.slope[s] = stores.slopeAt(m, s, stores.isCapacitor[s] ? stores.branchA(m, s) : m.held[s]!);
    }
    return SOLVED;
  }

  /** No state at the instant itself: the one a moment later, what is stored having moved on. */
  private later(m: Moment, tS: number, start: Float64Array, failed: Outcome): Outcome {
    const from = m.held.slice();
    for (const spanS of LATER_S) {
      m.x.set(start);
      this.layStores(spanS, spanS, from);
      if (this.settle(m.x, start, true).status !== 'solved') continue;
      this.take(m, tS, spanS, from);
      return SOLVED;
    }
    return failed;
  }

  private settle(x: Float64Array, start: Float64Array, falls: boolean): Outcome {
    const { network } = this;
    if (!falls) {
      const direct = newton(network, x, IN_TIME);
      if (direct.status === 'solved' && !isAmbiguous(network, x)) return direct;
      x.set(start);
    }
    return fallFrom(network, x);
  }

  private hasLostPath(m: Moment, s: number): boolean {
    const { stores } = this;
    if (stores.isCapacitor[s] || !(stores.size[s]! > 0)) return false;
    return Math.abs(m.amps[s]! - m.held[s]!) * stores.dragOhm(s, INSTANT_S) > ARC_V;
  }
}

const SOLVED: Outcome = { status: 'solved', iterations: 0, worst: -1 };
