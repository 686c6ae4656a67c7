import { expect } from 'vitest';
import { compile, type Element, elementAmps, type Network, type Solution, solveAtRest } from '../../src/circuit/index.ts';

/** A solved network with its figures by name. */
export interface Solved {
  readonly network: Network;
  readonly elements: readonly Element[];
  readonly solution: Solution;
  /** Volts of a node to ground. */
  v(node: string): number;
  /** Amps of an element, in its own direction. */
  i(id: string, port?: string): number;
}

/** Compiles and solves; fails the test when the network has no solution. */
export function solved(elements: readonly Element[], start?: Float64Array): Solved {
  const network = compile(elements);
  const solution = solveAtRest(network, elements, { start });
  expect(solution.status).toBe('solved');
  return readings(network, elements, solution);
}

/** Figures by name of a solution. */
export function readings(network: Network, elements: readonly Element[], solution: Solution): Solved {
  return {
    network,
    elements,
    solution,
    v: (node) => {
      const k = network.nodeIndex.get(node)!;
      return k < 0 ? 0 : solution.volts[k]!;
    },
    i: (id, port) => elementAmps(network, elements[network.elementIndex.get(id)!]!, solution, port),
  };
}

/** A resistance. */
export const ohms = (id: string, a: string, b: string, ohm: number): Element => ({ kind: 'resistor', id, a, b, ohm });

/** A source to ground behind a resistance (default 1 mohm). */
export const feed = (volt: number, a: string, ohm = 1e-3): Element => ({ kind: 'source', id: 'feed', a, b: '0', volt, ohm });

/** Relative agreement. */
export function near(value: number, expected: number, share: number): void {
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(share * Math.abs(expected));
}
