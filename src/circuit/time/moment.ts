import type { Network } from '../network.ts';
import type { Element } from '../types.ts';

/** One instant of a run: volts of the nodes and what the stores hold. Buffers are reused. */
export interface Moment {
  tS: number;
  /** Volts by node index, ground last; and what they lost by rounding. */
  readonly x: Float64Array;
  readonly rest: Float64Array;
  elements: readonly Element[];
  /** Per store: inner volts of a capacitor, amps of an inductor. */
  readonly held: Float64Array;
  /** Per store: change of the held figure, V/s or A/s. */
  readonly slope: Float64Array;
  /** Per store: current from a to b through all of it, leakage included, A. */
  readonly amps: Float64Array;
  /** Volts of sources and levels of loads at this time. */
  readonly inputs: Float64Array;
}

export function newMoment(network: Network, stores: number): Moment {
  const n = network.nodes.length;
  return {
    tS: 0,
    x: new Float64Array(n + 1),
    rest: new Float64Array(n + 1),
    elements: [],
    held: new Float64Array(stores),
    slope: new Float64Array(stores),
    amps: new Float64Array(stores),
    inputs: new Float64Array(network.linear.count + network.one.count),
  };
}

export function copyMoment(from: Moment, to: Moment): void {
  to.tS = from.tS;
  to.x.set(from.x);
  to.rest.set(from.rest);
  to.elements = from.elements;
  to.held.set(from.held);
  to.slope.set(from.slope);
  to.amps.set(from.amps);
  to.inputs.set(from.inputs);
}
