import { linearFigures } from '../load.ts';
import type { Network } from '../network.ts';
import { LEAST_OHM } from '../ports.ts';
import type { Capacitor, Element, Inductor, Source } from '../types.ts';
import type { Moment } from './moment.ts';

/** No store counts as more than this: an island may hang on it alone, and must not drown in rounding, ohm. */
const MOST_OHM = 1e11;

const isStore = (kind: Element['kind'] | undefined): boolean => kind === 'capacitor' || kind === 'inductor';

/**
 * The capacitors and inductors of a network. An implicit step makes of each a source behind a resistance: the
 * capacitor's series resistance and span / farad, the inductor's winding and henry / span.
 */
export class Stores {
  readonly count: number;
  readonly isCapacitor: Uint8Array;
  /** Farads or henries; zero stores nothing. */
  readonly size: Float64Array;
  /** Series resistance, ohm. */
  readonly ohm: Float64Array;
  /** Leakage beside a capacitor, S. */
  readonly leakS: Float64Array;
  /** Storing branch as last laid down, leakage apart: conductance, S, and driving volts. */
  readonly branchS: Float64Array;
  readonly branchV: Float64Array;
  /** Node indices of both ends, and place among the linear elements. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly place: Int32Array;
  /** Store of each element, -1 for the others. */
  readonly ofElement: Int32Array;

  constructor(private readonly network: Network) {
    const { linear, kinds } = network;
    const places = Array.from(linear.element.keys()).filter((p) => isStore(kinds[linear.element[p]!]));
    this.count = places.length;
    this.place = Int32Array.from(places);
    this.from = Int32Array.from(places, (p) => linear.from[p]!);
    this.to = Int32Array.from(places, (p) => linear.to[p]!);
    this.isCapacitor = Uint8Array.from(places, (p) => (kinds[linear.element[p]!] === 'capacitor' ? 1 : 0));
    this.ofElement = new Int32Array(kinds.length).fill(-1);
    places.forEach((p, s) => {
      this.ofElement[linear.element[p]!] = s;
    });
    const array = (): Float64Array => new Float64Array(this.count);
    this.size = array();
    this.ohm = array();
    this.leakS = array();
    this.branchS = array();
    this.branchV = array();
  }

  /** The network with its stores taken for sources; shares structure and buffers. */
  asSources(): Network {
    return { ...this.network, kinds: this.network.kinds.map((kind) => (isStore(kind) ? 'source' : kind)) };
  }

  /** Takes the figures of a store; gives the source that stands for it while islands are told apart: in time every store conducts. */
  read(s: number, e: Capacitor | Inductor): Source {
    const isCapacitor = e.kind === 'capacitor';
    this.size[s] = isCapacitor ? e.farad : e.henry;
    this.ohm[s] = Math.max(isCapacitor ? e.esrOhm : e.ohm, LEAST_OHM);
    this.leakS[s] = isCapacitor ? linearFigures(e).g : 0;
    return { kind: 'source', id: e.id, a: e.a, b: e.b, volt: 0, ohm: 1 };
  }

  /**
   * Lays a store into the network's buffers for an implicit step over `spanS` in which its held figure starts from
   * `held`; over no time a capacitor is its volts behind its series resistance.
   */
  lay(s: number, spanS: number, held: number): void {
    const { work, linear } = this.network;
    const drag = this.dragOhm(s, spanS);
    const branch = 1 / Math.min(this.ohm[s]! + drag, MOST_OHM);
    const volt = this.isCapacitor[s] ? held : -drag * held;
    this.branchS[s] = branch;
    this.branchV[s] = volt;
    const p = this.place[s]!;
    const total = branch + this.leakS[s]!;
    work.linearG[p] = total;
    work.linearV[p] = (branch * volt) / total;
    addBranch(work.linearValues, linear.slots, 4 * p, total);
  }

  /** What an implicit step over `spanS` puts in series with the store's own resistance, ohm. */
  dragOhm(s: number, spanS: number): number {
    const size = this.size[s]!;
    if (!this.isCapacitor[s]) return Math.min(size / spanS, MOST_OHM);
    return size > 0 ? Math.min(spanS / size, MOST_OHM) : MOST_OHM;
  }

  /** Does a store stand for less than it is in a step over `spanS`? */
  isCapped(s: number, spanS: number): boolean {
    const size = this.size[s]!;
    return this.isCapacitor[s] ? size > 0 && this.ohm[s]! + spanS / size > MOST_OHM : size / spanS > MOST_OHM;
  }

  /** Volts from a to b. */
  across(m: Moment, s: number): number {
    const a = this.from[s]!;
    const b = this.to[s]!;
    return m.x[a]! - m.x[b]! + (m.rest[a]! - m.rest[b]!);
  }

  /** Current of the storing branch at the volts of a moment, as last laid down, A. */
  branchA(m: Moment, s: number): number {
    return this.branchS[s]! * (this.across(m, s) - this.branchV[s]!);
  }

  /** Change of the held figure with the current `amp` in the storing branch, V/s or A/s. */
  slopeAt(m: Moment, s: number, amp: number): number {
    const size = this.size[s]!;
    if (!(size > 0)) return 0;
    return (this.isCapacitor[s] ? amp : this.across(m, s) - this.ohm[s]! * amp) / size;
  }
}

/** Adds a conductance to the matrix at the four places of its branch. */
export function addBranch(values: Float64Array, slots: Int32Array, at: number, g: number): void {
  values[slots[at]!]! += g;
  values[slots[at + 1]!]! += g;
  values[slots[at + 2]!]! -= g;
  values[slots[at + 3]!]! -= g;
}
