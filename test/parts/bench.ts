import { elementAmps } from '../../src/circuit/amps.ts';
import { compile } from '../../src/circuit/network.ts';
import { solveAtRest } from '../../src/circuit/solve.ts';
import type { Device, Element, Probe, Resistor, Source } from '../../src/circuit/types.ts';
import type { Behaviour } from '../../src/parts/types.ts';

/** A part on the bench: its own node names, battery negative `0`; what else hangs on it comes as elements. */
export interface Bench {
  volts(node: string): number;
  amps(element: string, port?: string): number;
  readonly floating: boolean;
}

export function solveBench(elements: readonly Element[]): Bench {
  const network = compile(elements);
  const solution = solveAtRest(network, elements);
  if (solution.status !== 'solved') throw new Error(`${solution.status} at ${solution.worstNode}`);
  const volts = (node: string): number => {
    if (node === '0') return 0;
    const i = network.nodeIndex.get(node);
    return i === undefined ? Number.NaN : solution.volts[i]!;
  };
  const amps = (id: string, port?: string): number => {
    const found = elements.find((e) => e.id === id);
    if (!found) throw new Error(`no element "${id}"`);
    return elementAmps(network, found, solution, port);
  };
  return { volts, amps, floating: solution.floating.size > 0 };
}

/**
 * Lets a part's devices settle by plain repetition, shortest first, as a slow check on the engine's own way.
 * @param longestS what is slower has not happened yet
 */
export function settleBench(
  make: (on: (id: string) => boolean) => Behaviour,
  around: readonly Element[],
  on = new Set<string>(),
  longestS = Number.POSITIVE_INFINITY,
): { readonly bench: Bench; readonly on: ReadonlySet<string> } {
  for (let turn = 0; turn < 50; turn++) {
    const behaviour = make((id) => on.has(id));
    const bench = solveBench([...around, ...behaviour.elements]);
    const probe: Probe = { volts: bench.volts, amps: bench.amps, on: (id) => on.has(id) };
    const delay = (d: Device): number => (on.has(d.id) ? d.releaseS : d.operateS);
    const next = (behaviour.devices ?? [])
      .filter((d) => d.wants(probe, on.has(d.id)) !== on.has(d.id) && delay(d) <= longestS)
      .sort((a, b) => delay(a) - delay(b))[0];
    if (!next) return { bench, on };
    if (on.has(next.id)) on.delete(next.id);
    else on.add(next.id);
  }
  throw new Error('does not come to rest');
}

export function source(id: string, a: string, b: string, volt: number, ohm = 0.001): Source {
  return { kind: 'source', id, a, b, volt, ohm };
}

export function ohms(id: string, a: string, b: string, ohm: number): Resistor {
  return { kind: 'resistor', id, a, b, ohm };
}
