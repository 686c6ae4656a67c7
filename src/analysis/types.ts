import type { Band, Id, VehicleState } from '../plan/types.ts';

/**
 * The fitter's questions answered: plain data, a pure function of the (filled) plan. Crosses from the worker to the
 * page as it is, hence typed arrays and indexes instead of nested maps. Amps along a wire are positive from -> to.
 */
export interface ReadingIndex {
  /** `part.terminal` keys in array order. */
  readonly terminals: readonly string[];
  readonly wires: readonly Id[];
  /** `part:element` or `part:element:port`. */
  readonly elements: readonly string[];
  /** `part:device`. */
  readonly devices: readonly string[];
}

/** One reading of the whole plan: one state in one band. */
export interface Reading {
  readonly state: VehicleState;
  readonly band: Band;
  /** `not computed` = did not converge, chatters, starves ... see `trouble`. */
  readonly status: 'solved' | 'not computed';
  readonly trouble: { readonly kind: 'not-converged' | 'singular' | 'chatters' | 'starves'; readonly where: string } | null;
  /** Volts to battery negative; NaN = floating. */
  readonly terminalV: Float64Array;
  readonly wireA: Float64Array;
  readonly elementA: Float64Array;
  readonly deviceOn: Uint8Array;
  /** Timers this reading relies on (still holding). */
  readonly waiting: readonly string[];
}

/** What protects one end of a wire. */
export interface EndProtection {
  /** Greatest current that can persist into this end with the wire removed, A. Infinity = unfused. */
  readonly maxA: number;
  /** The fuse or limited source that bounds it (smallest on a radial path): part id. */
  readonly byPart: Id | null;
  readonly byName: string;
}

export interface WireReport {
  readonly id: Id;
  readonly areaMm2: number;
  readonly lengthM: number;
  /** Resistance at the reading temperature incl. two terminations, hot, ohm. */
  readonly hotOhm: number;
  /** rho L / A cold, without terminations, ohm. */
  readonly coldOhm: number;
  /** Planning limit with temperature and bundling, A. */
  readonly limitA: number;
  /** What made the limit: base table value, k_T, k_n. */
  readonly baseA: number;
  readonly kT: number;
  readonly kN: number;
  /** Hottest zone crossed, degrees C. */
  readonly zoneC: number;
  /** Nominal volts of the net it carries (12, 24, 5, 3.3, 0), null when not known. */
  readonly nominalV: number | null;
  readonly role: 'supply' | 'rail5' | 'rail3' | 'ground' | 'signal' | 'audio' | 'video' | 'usb' | 'unknown';
  /** Worst (largest) |A| over all states and bands, and where. */
  readonly worstA: number;
  readonly worstState: VehicleState;
  readonly worstBand: Band;
  /** Heating current used for fuse and size, A (rms over 60 s, V_lo design corner included). */
  readonly heatA: number;
  /** Peak >= 1 ms, A. */
  readonly peakA: number;
  readonly worstDropV: number;
  /** Share of nominal, 0..1; null when nominal is unknown or 0. */
  readonly worstDropShare: number | null;
  readonly worstW: number;
  readonly worstWPerM: number;
  readonly protection: { readonly from: EndProtection; readonly to: EndProtection };
  /** Smallest fuse name protecting it, or '' when unprotected. */
  readonly protectedBy: string;
  /** Protected at both ends within its limit. */
  readonly isProtected: boolean;
  /** Is on the path between a tap or store and its first fuse. */
  readonly unfused: boolean;
}

export interface FuseReport {
  readonly part: Id;
  readonly ratingA: number;
  readonly heatA: number;
  readonly allowedA: number;
  /** Least prospective short-circuit current at the farthest point it must protect, A, and that wire. */
  readonly leastShortA: number;
  readonly leastShortWire: Id | null;
  readonly greatestShortA: number;
  /** Conductor length from the source to this fuse, m (null: not the first fuse). */
  readonly unfusedM: number | null;
}

/** What arrives at a load: at typical and at its worst corner. */
export interface Arrival {
  readonly part: Id;
  readonly label: string;
  readonly plus: string;
  readonly minus: string;
  readonly nominalV: number;
  readonly minV: number | null;
  readonly maxV: number | null;
  /** V at each of the six key positions, typical band; NaN = dead or floating. */
  readonly typical: readonly number[];
  /** Worst low over states in which the load runs; the corner that made it in words. */
  readonly worstLow: { readonly v: number; readonly state: VehicleState; readonly corner: string } | null;
  readonly worstHigh: { readonly v: number; readonly state: VehicleState; readonly corner: string } | null;
}

export interface ParkedReport {
  /** What the build adds, A, typical band, all delays run out. */
  readonly buildA: number;
  readonly vehicleA: number;
  readonly selfA: number;
  readonly days: number;
  readonly daysWithout: number;
  /** Who draws it, largest first. */
  readonly shares: readonly { readonly part: Id; readonly name: string; readonly amp: number }[];
}

/** One row of the loads table. */
export interface LoadRow {
  readonly part: Id;
  readonly name: string;
  readonly nominalV: number;
  readonly peakA: number;
  readonly heatA: number;
  /** Solved current and power per key position, typical band. */
  readonly amps: readonly number[];
  readonly watts: readonly number[];
}

/** One used header cell of a computer. */
export interface PinRow {
  readonly part: Id;
  readonly pin: number;
  readonly gpio: number | null;
  /** The plan's own label: what it is joined to. */
  readonly label: string;
  /** The part that the label names; null when there is none. */
  readonly joined: Id | null;
  readonly wire: Id | null;
  /** Volts and the level in words per key position, typical band. */
  readonly volts: readonly number[];
  readonly level: readonly ('low' | 'high' | 'between' | 'floating' | 'rail')[];
  readonly pull: string;
}

export interface Analysis {
  readonly index: ReadingIndex;
  /** All base states in all bands in walk order, then the vehicle's extra states. */
  readonly readings: readonly Reading[];
  /** The V_lo design corner: everything up, heavy loads, in RUN_STOPPED. */
  readonly design: Reading;
  readonly wires: Readonly<Record<Id, WireReport>>;
  readonly fuses: Readonly<Record<Id, FuseReport>>;
  readonly arrivals: readonly Arrival[];
  readonly parked: ParkedReport;
  readonly loads: readonly LoadRow[];
  readonly pins: readonly PinRow[];
  /** `part:device` that ends otherwise on direct entry. */
  readonly dependsOnHistory: readonly string[];
}

/** The six positions of the key control, in order, and the state each shows. */
export const KEY_POSITIONS = [
  { key: 'Parked', state: 'OFF_ASLEEP' },
  { key: 'Accessory', state: 'ACC' },
  { key: 'Ignition', state: 'RUN_STOPPED' },
  { key: 'Start', state: 'START' },
  { key: 'Running', state: 'RUN_CHARGING' },
  { key: 'Held', state: 'RETAIN' },
] as const satisfies readonly { key: string; state: VehicleState }[];

export type KeyPosition = (typeof KEY_POSITIONS)[number]['key'];
