import type { Band, Id, VehicleState } from '../../plan/types.ts';

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
  readonly stuck: { readonly tS: number; readonly where: string } | null;
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
