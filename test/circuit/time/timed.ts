import { compile, type Device, type Element } from '../../../src/circuit/index.ts';
import { type TimedNetwork, type Trace, type TransientOptions, transient } from '../../../src/circuit/time/index.ts';

export type ElementsAt = TimedNetwork['elements'];

/** Runs from the given elements; watches every node and element unless told otherwise. */
export function follow(
  elements: ElementsAt | readonly Element[],
  options: Partial<TransientOptions> & { readonly untilS: number },
  rest: { readonly devices?: readonly Device[]; readonly breaks?: readonly number[]; readonly fuses?: TimedNetwork['fuses'] } = {},
): Followed {
  const at: ElementsAt = typeof elements === 'function' ? elements : () => elements;
  const list = at(() => false, 0);
  const network = compile(list);
  const watch = { nodes: [...network.nodes], elements: list.map((e) => ({ id: e.id })) };
  const timed: TimedNetwork = { elements: at, devices: rest.devices ?? [], breaks: rest.breaks ?? [], ...(rest.fuses ? { fuses: rest.fuses } : {}) };
  const trace = transient(network, timed, { states: new Map(), watch, ...options });
  const columnOf = (node: string): Float64Array => trace.volts[(options.watch ?? watch).nodes.indexOf(node)]!;
  const ampsOf = (id: string): Float64Array => trace.amps[(options.watch ?? watch).elements.findIndex((e) => e.id === id)]!;
  return { trace, v: columnOf, i: ampsOf, last: (node) => columnOf(node).at(-1)! };
}

export interface Followed {
  readonly trace: Trace;
  /** Volts of a node, by step. */
  v(node: string): Float64Array;
  /** Amps of an element, by step. */
  i(id: string): Float64Array;
  /** Volts of a node at the end. */
  last(node: string): number;
}

/** Largest difference between a recorded figure and a function of time. */
export function worstOff(trace: Trace, values: Float64Array, expected: (tS: number) => number): number {
  let worst = 0;
  values.forEach((value, k) => {
    worst = Math.max(worst, Math.abs(value - expected(trace.tS[k]!)));
  });
  return worst;
}

export const capacitor = (id: string, a: string, b: string, farad: number, esrOhm = 0): Element => ({
  kind: 'capacitor',
  id,
  a,
  b,
  farad,
  esrOhm,
  leakOhm: Number.POSITIVE_INFINITY,
});
export const inductor = (id: string, a: string, b: string, henry: number, ohm = 0): Element => ({ kind: 'inductor', id, a, b, henry, ohm });
export const source = (id: string, a: string, volt: number, ohm = 1e-3): Element => ({ kind: 'source', id, a, b: '0', volt, ohm });
