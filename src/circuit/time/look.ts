import { ampsAt, direction } from '../amps.ts';
import type { Network } from '../network.ts';
import { endsOf } from '../network.ts';
import type { NodeName, Probe } from '../types.ts';
import type { TimedCircuit } from './circuit.ts';
import type { Moment } from './moment.ts';
import { GAMMA } from './step.ts';

function place(network: Network, node: NodeName): number {
  const k = network.nodeIndex.get(node);
  if (k === undefined) throw new Error(`no node ${node} in this network`);
  return k < 0 ? network.nodes.length : k;
}

function elementPlace(network: Network, id: string): number {
  const k = network.elementIndex.get(id);
  if (k === undefined) throw new Error(`no element ${id} in this network`);
  return k;
}

/** Current of an element (port) at a moment, A, in the direction given with it. */
export function ampsIn(circuit: TimedCircuit, m: Moment, id: string, port?: string): number {
  const { network } = circuit;
  const k = elementPlace(network, id);
  const e = m.elements[k]!;
  const store = circuit.stores.ofElement[k]!;
  if (store >= 0) return direction(e, port).signs * m.amps[store]!;
  const [a, b, c, d] = endsOf(e);
  const across = (plus: NodeName, minus: NodeName): number => {
    const p = place(network, plus);
    const q = place(network, minus);
    return m.x[p]! - m.x[q]! + (m.rest[p]! - m.rest[q]!);
  };
  return ampsAt(e, across(a, b), c !== undefined && d !== undefined ? across(c, d) : 0, port);
}

/** What devices see at a moment. */
export function probeAt(circuit: TimedCircuit, m: Moment, on: (id: string) => boolean): Probe {
  return {
    volts: (node) => m.x[place(circuit.network, node)]!,
    amps: (id, port) => ampsIn(circuit, m, id, port),
    on,
  };
}

/** What devices would see at the share `theta` of a step: volts by a parabola through start, middle and end, amps likewise. */
export function probeWithin(circuit: TimedCircuit, now: Moment, middle: Moment, end: Moment, theta: number, on: (id: string) => boolean): Probe {
  const w0 = ((theta - GAMMA) * (theta - 1)) / GAMMA;
  const w1 = (theta * (theta - 1)) / (GAMMA * (GAMMA - 1));
  const w2 = (theta * (theta - GAMMA)) / (1 - GAMMA);
  return {
    volts: (node) => {
      const k = place(circuit.network, node);
      return w0 * now.x[k]! + w1 * middle.x[k]! + w2 * end.x[k]!;
    },
    amps: (id, port) => w0 * ampsIn(circuit, now, id, port) + w1 * ampsIn(circuit, middle, id, port) + w2 * ampsIn(circuit, end, id, port),
    on,
  };
}
