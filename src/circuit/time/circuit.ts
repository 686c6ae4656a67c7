import { isAmbiguous } from '../branch.ts';
import { linearFigures, loadValues } from '../load.ts';
import type { Network } from '../network.ts';
import { factorAt, newton, type Outcome, type Setting } from '../newton.ts';
import { CODE, LEAST_OHM, prepareOne, STRIDE } from '../ports.ts';
import { followInTime } from '../solve.ts';
import { solve } from '../sparse.ts';
import type { Capacitor, Element, Inductor, Source } from '../types.ts';
import type { Moment } from './moment.ts';

const IN_TIME: Setting = { lambda: 1, gmin: 0, towards: null, isWarm: true, longest: 20 };
/** Span over which an inductor's current is held at an instant, s: so short that 12 V across 1 uH move it by 12 uA. */
const INSTANT_S = 1e-12;
/** No store counts as more than this while an instant is solved: an island may hang on it alone, and must not drown in rounding, ohm. */
const MOST_OHM = 1e11;
const LEAST_S = 0.1 / MOST_OHM;
/** Where an inductor that has lost its path would raise more than this, the air itself gives way and its current ends, V. */
const ARC_V = 1e4;
/** Span within which it then ends, s. */
const ARC_S = 1e-6;
const MOST_ARCS = 4;

/**
 * The elements of a network with its stores (capacitors, inductors) as sources behind a resistance, which is what an
 * implicit step makes of them: place, buffers and elimination order of the network at rest serve as they are.
 */
export class TimedCircuit {
  /** The network given, its stores taken for sources. Shares all buffers. */
  readonly network: Network;
  readonly count: number;
  readonly isCapacitor: Uint8Array;
  /** Farads or henries. */
  readonly size: Float64Array;
  /** Series resistance, ohm. */
  private readonly ohm: Float64Array;
  private readonly leakS: Float64Array;
  /** Element index and place among the linear elements of each store. */
  private readonly element: Int32Array;
  private readonly place: Int32Array;
  /** Store of each element, -1 for the others. */
  readonly storeOf: Int32Array;
  /** Conductance of the storing branch (without leakage), S, and its driving volts. */
  private readonly branchS: Float64Array;
  private readonly branchV: Float64Array;
  /** Matrix of the linear elements without the stores. */
  private readonly base: Float64Array;
  private readonly stand: Element[];
  private elements: readonly Element[] = [];

  constructor(
    network: Network,
    private readonly elementsAt: (tS: number) => readonly Element[],
  ) {
    const isStore = (k: number): boolean => network.kinds[k] === 'capacitor' || network.kinds[k] === 'inductor';
    this.network = { ...network, kinds: network.kinds.map((kind, k) => (isStore(k) ? 'source' : kind)) };
    const { linear, kinds, work } = network;
    const places = Array.from(linear.element.keys()).filter((p) => isStore(linear.element[p]!));
    const count = places.length;
    this.count = count;
    this.place = Int32Array.from(places);
    this.element = Int32Array.from(places, (p) => linear.element[p]!);
    this.isCapacitor = Uint8Array.from(this.element, (k) => (kinds[k] === 'capacitor' ? 1 : 0));
    this.storeOf = new Int32Array(kinds.length).fill(-1);
    this.element.forEach((k, s) => {
      this.storeOf[k] = s;
    });
    this.size = new Float64Array(count);
    this.ohm = new Float64Array(count);
    this.leakS = new Float64Array(count);
    this.branchS = new Float64Array(count);
    this.branchV = new Float64Array(count);
    this.base = new Float64Array(work.linearValues.length);
    this.stand = new Array<Element>(kinds.length);
  }

  /** Takes the elements of a time. Levels of sources and loads are patched; anything else lays the network down anew. */
  load(tS: number): void {
    const next = this.elementsAt(tS);
    const last = this.elements;
    if (next === last) return;
    const { linear, one, kinds, work } = this.network;
    let isPatched = next.length === last.length;
    for (let p = 0; isPatched && p < linear.count; p++) {
      const k = linear.element[p]!;
      const e = next[k]!;
      const old = last[k]!;
      if (e === old) continue;
      if (e.kind === 'source' && old.kind === 'source' && e.ohm === old.ohm) {
        work.linearV[p] = e.volt;
        this.stand[k] = e;
      } else isPatched = false;
    }
    for (let p = 0; isPatched && p < one.count; p++) {
      const k = one.element[p]!;
      const e = next[k]!;
      if (e === last[k]) continue;
      if (e.kind === kinds[k] && (e.kind === 'current' || e.kind === 'power')) {
        prepareOne(e, work.parOne, p * STRIDE);
        this.stand[k] = e;
      } else isPatched = false;
    }
    for (let p = 0; isPatched && p < this.network.two.count; p++) {
      const k = this.network.two.element[p]!;
      isPatched = next[k] === last[k];
    }
    this.elements = next;
    if (!isPatched) this.layDown();
  }

  private layDown(): void {
    const { elements, stand, network, base } = this;
    for (let k = 0; k < elements.length; k++) {
      const e = elements[k]!;
      const s = this.storeOf[k] ?? -1;
      if (s < 0) stand[k] = e;
      else stand[k] = this.takeStore(s, e as Capacitor | Inductor);
    }
    if (stand.length > elements.length) stand.length = elements.length;
    loadValues(network, stand);
    const { linear, work } = network;
    base.fill(0);
    for (let p = 0; p < linear.count; p++) if (this.storeOf[linear.element[p]!]! < 0) addBranch(base, linear.slots, 4 * p, work.linearG[p]!);
  }

  /** Figures of a store, and the source that stands for it while islands are told apart: in time every store conducts. */
  private takeStore(s: number, e: Capacitor | Inductor): Source {
    const isCapacitor = e.kind === 'capacitor';
    this.size[s] = isCapacitor ? e.farad : e.henry;
    this.ohm[s] = Math.max(isCapacitor ? e.esrOhm : e.ohm, LEAST_OHM);
    this.leakS[s] = isCapacitor ? linearFigures(e).g : 0;
    return { kind: 'source', id: e.id, a: e.a, b: e.b, volt: 0, ohm: 1 };
  }

  /** Conductance and driving volts of a store's branch into the network, leakage beside it. */
  private lay(s: number, g: number, volt: number): void {
    const { work, linear } = this.network;
    const branch = Math.max(g, LEAST_S);
    this.branchS[s] = branch;
    this.branchV[s] = volt;
    const p = this.place[s]!;
    const total = branch + this.leakS[s]!;
    work.linearG[p] = total;
    work.linearV[p] = (branch * volt) / total;
    addBranch(work.linearValues, linear.slots, 4 * p, total);
  }

  /**
   * Solves the network at a time in an implicit stage: the held figure of each store is `from` + `spanS` x its slope.
   * Reads `m.x` as the start, fills `m`.
   */
  stage(m: Moment, tS: number, spanS: number, from: Float64Array): Outcome {
    this.load(tS);
    const { network, size, ohm } = this;
    network.work.linearValues.set(this.base);
    for (let s = 0; s < this.count; s++) {
      const drag = this.isCapacitor[s] ? spanS / size[s]! : size[s]! / spanS;
      this.lay(s, 1 / (ohm[s]! + drag), this.isCapacitor[s] ? from[s]! : -drag * from[s]!);
    }
    const result = newton(network, m.x, IN_TIME);
    if (result.status !== 'solved') return result;
    this.take(m, tS);
    for (let s = 0; s < this.count; s++) {
      const amp = m.amps[s]! - this.leakS[s]! * this.across(m, s);
      if (this.isCapacitor[s]) {
        m.slope[s] = size[s]! > 0 ? amp / size[s]! : 0;
        m.held[s] = from[s]! + spanS * m.slope[s]!;
      } else {
        m.held[s] = amp;
        m.slope[s] = size[s]! > 0 ? (this.across(m, s) - ohm[s]! * amp) / size[s]! : 0;
      }
    }
    return result;
  }

  /**
   * Solves the network at an instant with the stores as they are in `m.held`: volts may jump, what is stored may not,
   * but for an inductor that has lost every path. Of several states of a load the one that the network itself falls
   * to is taken. Reads `m.x` as the start, fills `m`.
   */
  instant(m: Moment, tS: number, isJump = false): Outcome {
    this.load(tS);
    const { network } = this;
    const start = network.work.trial.slice();
    start.set(m.x);
    for (let arcs = 0; ; arcs++) {
      this.layInstant(m, INSTANT_S);
      const result = this.settleVolts(m.x, start, isJump);
      if (result.status !== 'solved') return result;
      this.take(m, tS);
      if (arcs >= MOST_ARCS || !this.hasArc(m)) break;
      m.x.set(start);
      this.layInstant(m, ARC_S);
      const arc = this.settleVolts(m.x, start, isJump);
      if (arc.status !== 'solved') return arc;
      for (let s = 0; s < this.count; s++) {
        if (this.arcs(m, s)) m.held[s] = this.branchS[s]! * (this.across(m, s) - this.branchV[s]!);
      }
      m.x.set(start);
    }
    for (let s = 0; s < this.count; s++) {
      const size = this.size[s]!;
      if (!(size > 0)) {
        if (!this.isCapacitor[s]) m.held[s] = m.amps[s]!;
        m.slope[s] = 0;
      } else if (this.isCapacitor[s]) m.slope[s] = (m.amps[s]! - this.leakS[s]! * this.across(m, s)) / size;
      else m.slope[s] = (this.across(m, s) - this.ohm[s]! * m.held[s]!) / size;
    }
    return { status: 'solved', iterations: 0, worst: -1 };
  }

  private layInstant(m: Moment, spanS: number): void {
    this.network.work.linearValues.set(this.base);
    for (let s = 0; s < this.count; s++) {
      if (this.isCapacitor[s]) this.lay(s, this.size[s]! > 0 ? 1 / this.ohm[s]! : 0, m.held[s]!);
      else {
        const drag = Math.min(this.size[s]! / spanS, MOST_OHM);
        this.lay(s, 1 / (this.ohm[s]! + drag), -drag * m.held[s]!);
      }
    }
  }

  private settleVolts(x: Float64Array, start: Float64Array, isJump: boolean): Outcome {
    const { network } = this;
    if (!isJump) {
      const direct = newton(network, x, IN_TIME);
      if (direct.status === 'solved' && !isAmbiguous(network, x)) return direct;
      x.set(start);
    }
    return followInTime(network, x, 1, 0);
  }

  private arcs(m: Moment, s: number): boolean {
    return !this.isCapacitor[s] && this.size[s]! > 0 && Math.abs(this.size[s]! * (m.amps[s]! - m.held[s]!)) > ARC_V * INSTANT_S;
  }

  private hasArc(m: Moment): boolean {
    for (let s = 0; s < this.count; s++) if (this.arcs(m, s)) return true;
    return false;
  }

  private across(m: Moment, s: number): number {
    const { linear } = this.network;
    const p = this.place[s]!;
    const a = linear.from[p]!;
    const b = linear.to[p]!;
    return m.x[a]! - m.x[b]! + (m.rest[a]! - m.rest[b]!);
  }

  /** Copies what the last solution left in the network's buffers. */
  private take(m: Moment, tS: number): void {
    const { linear, one, work } = this.network;
    m.tS = tS;
    m.elements = this.elements;
    m.rest.set(work.rest);
    for (let s = 0; s < this.count; s++) {
      const u = this.across(m, s);
      m.amps[s] = this.branchS[s]! * (u - this.branchV[s]!) + this.leakS[s]! * u;
    }
    m.inputs.set(work.linearV);
    for (let p = 0; p < one.count; p++) {
      const code = one.code[p]!;
      m.inputs[linear.count + p] = code === CODE.current || code === CODE.power ? work.parOne[p * STRIDE]! : 0;
    }
    // A store's driving volts are no input.
    for (let s = 0; s < this.count; s++) m.inputs[this.place[s]!] = 0;
  }

  /**
   * What an error of the held figures becomes in the stage last solved: fast stores that only follow the network do
   * not keep it. Uses the factors of that stage, or with `at` those of the same stage linearised there.
   * After Hosea and Shampine (Appl. Numer. Math. 20, 1996).
   */
  soften(raw: Float64Array, soft: Float64Array, spanS: number, at: Float64Array | null): void {
    const { linear, work, nodes } = this.network;
    if (at !== null) {
      work.trial.set(at);
      work.rest.fill(0);
    }
    if (at === null ? work.factors === null : !factorAt(this.network, work.trial)) {
      soft.set(raw);
      return;
    }
    const n = nodes.length;
    const push = work.residual;
    push.fill(0);
    for (let s = 0; s < this.count; s++) {
      const p = this.place[s]!;
      const volt = this.isCapacitor[s] ? raw[s]! : (-this.size[s]! / spanS) * raw[s]!;
      push[linear.from[p]!]! += this.branchS[s]! * volt;
      push[linear.to[p]!]! -= this.branchS[s]! * volt;
    }
    const moved = work.step;
    for (let k = 0; k < n; k++) moved[k] = push[k]!;
    solve(work.factors!, moved, moved);
    for (let s = 0; s < this.count; s++) {
      const p = this.place[s]!;
      const a = linear.from[p]!;
      const b = linear.to[p]!;
      const u = (a < n ? moved[a]! : 0) - (b < n ? moved[b]! : 0);
      const amp = this.branchS[s]! * u;
      if (!this.isCapacitor[s]) soft[s] = amp + this.branchS[s]! * (this.size[s]! / spanS) * raw[s]!;
      else soft[s] = this.size[s]! > 0 ? raw[s]! + (spanS / this.size[s]!) * (amp - this.branchS[s]! * raw[s]!) : 0;
    }
  }
}

function addBranch(values: Float64Array, slots: Int32Array, at: number, g: number): void {
  values[slots[at]!]! += g;
  values[slots[at + 1]!]! += g;
  values[slots[at + 2]!]! -= g;
  values[slots[at + 3]!]! -= g;
}
