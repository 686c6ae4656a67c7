import type { Band, Id, VehicleState } from '../../plan/types.ts';
import type { ProfileId } from '../../trade/profiles.ts';

/** One turn of the key, with the moments a person may drag. Times in s from the start of the strip. */
export interface Scenario {
  readonly band: Band;
  /** Parked before this; then Accessory for a moment and Ignition. */
  readonly keyOnS: number;
  readonly startS: number;
  readonly keyOffS: number;
  /** Driver's door opened (ends retention), or null: stays shut until retention times out. */
  readonly doorS: number | null;
  readonly untilS: number;
  /** Buttons pressed by hand. */
  readonly presses: readonly { readonly part: Id; readonly atS: number; readonly forS: number }[];
  /** The key turned on again while things are still stopping, or null. */
  readonly keyBackS: number | null;
}

export interface KeySpan {
  readonly state: VehicleState;
  readonly fromS: number;
  readonly toS: number;
}

export type ComputerState = 'off' | 'booting' | 'up' | 'stopping' | 'halted' | 'browned out';

export interface ComputerSpan {
  readonly part: Id;
  readonly state: ComputerState;
  readonly fromS: number;
  readonly toS: number;
}

/** Volts against time, thinned for drawing without losing a dip (least and greatest of each slot are kept). */
export interface CycleTrace {
  readonly id: 'battery' | 'input' | 'five';
  readonly label: string;
  readonly part: Id | null;
  readonly tS: Float64Array;
  readonly volts: Float64Array;
}

export interface CycleEvent {
  readonly tS: number;
  readonly part: Id;
  readonly label: string;
}

/** Seconds in hand of one computer in one band. */
export interface StopMargin {
  readonly part: Id;
  /** Seconds between "halted" and the fall of its 5 V below the brown-out threshold; negative = power went first; null = it never stops or power never falls. */
  readonly spareS: number | null;
  readonly stoppedS: number | null;
  readonly powerFellS: number | null;
  /** What opened the feed. */
  readonly openedBy: string | null;
  /** Brown-outs while it should have run: times, and the least 5 V in cranking. */
  readonly brownOuts: readonly number[];
  readonly leastCrankV: number | null;
}

/** The least seconds in hand of one computer over all bands and both ways the door may go, and where that was. */
export interface WorstMargin extends StopMargin {
  readonly band: Band;
  readonly door: 'at once' | 'never';
}

export interface KeyCycle {
  readonly scenario: Scenario;
  readonly key: readonly KeySpan[];
  readonly traces: readonly CycleTrace[];
  readonly computers: readonly ComputerSpan[];
  readonly events: readonly CycleEvent[];
  readonly margins: readonly StopMargin[];
  readonly outcome: 'done' | 'cancelled' | 'stuck';
  readonly stuck: Stuck | null;
  readonly accepted: number;
  readonly rejected: number;
  /** Charge taken from the battery over the run, As. */
  readonly chargeAs: number;
}

/** State of charge over the weeks the vehicle stands. */
export interface ParkedWeeks {
  readonly days: Float64Array;
  /** Share of full, 0..1, with and without the build. */
  readonly chargeWith: Float64Array;
  readonly chargeWithout: Float64Array;
  /** Least charge that still starts the engine. */
  readonly startLimit: number;
  readonly daysToLimit: number;
  readonly daysToLimitWithout: number;
  /** What one change would buy, most days first. */
  readonly gains: readonly { readonly part: Id | null; readonly what: string; readonly days: number }[];
}

/** Percentiles over tolerances, from a seeded Monte Carlo. */
export interface Spread {
  readonly seed: number;
  readonly runs: number;
  readonly done: number;
  readonly rows: readonly {
    readonly id: string;
    readonly label: string;
    readonly unit: string;
    readonly p5: number;
    readonly p50: number;
    readonly p95: number;
    readonly least: number;
    readonly most: number;
    readonly limit: number | null /** share of runs beyond the limit */;
    readonly beyond: number | null;
  }[];
}

/** Where a run could not go on: the part by name, and whether no state fits it or it never comes to rest. */
export interface Stuck {
  readonly tS: number;
  readonly where: string;
  readonly why: 'no state' | 'restless';
}

/** What is stressed: see the words of each on screen. */
export type StressKind = 'input' | 'five' | 'five low' | 'reversed' | 'blocked' | 'capacitor' | 'clamp power' | 'clamp energy' | 'led' | 'fuse' | 'resistor';

/** The worst that one event does to one part. */
export interface Stress {
  readonly part: Id;
  readonly kind: StressKind;
  readonly unit: 'V' | 'A' | 'W' | 'J' | '' /** a share of 0..1 */;
  readonly peak: number;
  readonly limit: number;
  /** Share of the limit that is used: above 1 it is beyond what the part stands. */
  readonly share: number;
  /** When, s from the beginning of the event; null where it builds up. */
  readonly atS: number | null;
}

/** One event of the supply: the supply's own curve, and what it does to the parts, worst first. */
export interface EventReport {
  readonly profile: ProfileId;
  readonly title: string;
  readonly state: VehicleState;
  readonly band: Band;
  readonly outcome: 'done' | 'stuck';
  readonly stuck: Stuck | null;
  /** Volts at the battery's posts. */
  readonly supply: { readonly tS: Float64Array; readonly volts: Float64Array };
  readonly stress: readonly Stress[];
}
