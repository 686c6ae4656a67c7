import type { Device, Element, NodeName } from '../types.ts';
import type { FuseGates } from './fuse.ts';

/** A network in time: the same elements (ids, nodes, order) at every moment and in every device state; values may change. */
export interface TimedNetwork {
  /**
   * Elements for device states at time t. Source volts and load levels may depend on t, continuously between breaks.
   * Capacitors and inductors carry their stored energy; everything else is as at rest.
   */
  elements(on: (deviceId: string) => boolean, tS: number): readonly Element[];
  /** `operateS`/`releaseS` are delays: a device switches when it has wanted to for that long without a break. */
  readonly devices: readonly Device[];
  /** Times at which an input jumps or kinks (key moves, corners of a supply profile), ascending, s. */
  readonly breaks: readonly number[];
  /** Fuses whose heating is followed. `on(id)` turns true for good when the link has melted; `elements` then opens it. */
  readonly fuses?: readonly TimedFuse[];
}

export interface TimedFuse {
  readonly id: string;
  /** Element (and port) whose current heats the link. */
  readonly element: string;
  readonly port?: string;
  readonly gates: FuseGates;
  /** What else flows through the link while that element carries anything, A: loads that are not in the network. */
  readonly besideA?: number;
}

/** What to record: volts of nodes and amps of elements (port for multi-port elements). */
export interface Watch {
  readonly nodes: readonly NodeName[];
  readonly elements: readonly { readonly id: string; readonly port?: string }[];
}

export interface TransientOptions {
  readonly untilS: number;
  /** Device states at t = 0. */
  readonly states: ReadonlyMap<string, boolean>;
  readonly watch: Watch;
  /** Local error allowed per step: absolute volts (0.005) and share of the value (0.001). */
  readonly absV?: number;
  readonly relative?: number;
  readonly maxStepS?: number;
  /** A run that takes more steps ends as `stuck`, with a node of the store that moves fastest (100 000): something oscillates. */
  readonly mostSteps?: number;
  /** Equal steps without error control, for checking the order of the method. */
  readonly fixedStepS?: number;
  /** Volts across capacitors at t = 0 by element id; absent = as at rest in the given states. */
  readonly charge?: ReadonlyMap<string, number>;
  /** Called between steps with the share done; returning true stops the run. */
  readonly onProgress?: (share: number) => boolean;
  /** Seen at every accepted step (audits, stress maxima): time and volts by node index; do not keep the array. */
  readonly onStep?: (tS: number, volts: Float64Array, elements: readonly Element[]) => void;
}

export interface TransientEvent {
  readonly tS: number;
  readonly device: string;
  readonly on: boolean;
}

/** `no state`: the elements have no solution together; `restless`: something swings for ever. */
export type StuckWhy = 'no state' | 'restless';

export interface Trace {
  readonly outcome: 'done' | 'cancelled' | 'stuck';
  /** Time at which a stuck run stopped, the worst node, and whether there was no state there or no end of steps. */
  readonly stuck: { readonly tS: number; readonly node: NodeName; readonly why: StuckWhy } | null;
  /** Times of the accepted steps, s. */
  readonly tS: Float64Array;
  /** One array per watched node, per watched element. */
  readonly volts: readonly Float64Array[];
  readonly amps: readonly Float64Array[];
  readonly events: readonly TransientEvent[];
  readonly states: ReadonlyMap<string, boolean>;
  /** Greatest share of the way to melting that each fuse came to, 0..1. */
  readonly fuseHeat: ReadonlyMap<string, number>;
  readonly accepted: number;
  readonly rejected: number;
}
