import { linearFigures, loadValues } from './load.ts';
import { endsOf, type Network } from './network.ts';
import { CODE, lawOne, lawTwo, OUT, prepareOne, prepareTwo, STRIDE } from './ports.ts';
import type { Element, NodeName, Solution } from './types.ts';

/** Currents into the element at its (one or two) ports and the power it takes up. */
export interface Flow {
  /** From the first end through the element to the second, A. */
  readonly i1: number;
  /** Second port of two-ports, into its first end, A; 0 for others. */
  readonly i2: number;
  readonly v1: number;
  readonly v2: number;
}

const PAR = new Float64Array(STRIDE);

/** Currents of an element at the volts of its ports. */
export function flowOf(e: Element, v1: number, v2: number): Flow {
  switch (e.kind) {
    case 'resistor':
    case 'source':
    case 'capacitor':
    case 'inductor': {
      const { g, volt } = linearFigures(e);
      return { i1: g * (v1 - volt), i2: 0, v1, v2: 0 };
    }
    case 'stepdown':
    case 'linear':
    case 'opto':
      prepareTwo(e, PAR, 0);
      lawTwo(CODE[e.kind], PAR, 0, e.kind === 'stepdown' ? e.eta : [], v1, v2);
      return { i1: OUT[0]!, i2: OUT[1]!, v1, v2 };
    default:
      prepareOne(e, PAR, 0);
      lawOne(CODE[e.kind], PAR, 0, v1);
      return { i1: OUT[0]!, i2: 0, v1, v2: 0 };
  }
}

/** Slopes of both currents by both port volts, S: g11, g12, g21, g22. */
export function slopesOf(e: Element, v1: number, v2: number): readonly [number, number, number, number] {
  if (e.kind === 'resistor' || e.kind === 'source' || e.kind === 'capacitor' || e.kind === 'inductor') return [linearFigures(e).g, 0, 0, 0];
  flowOf(e, v1, v2);
  const isTwo = e.kind === 'stepdown' || e.kind === 'linear' || e.kind === 'opto';
  return isTwo ? [OUT[2]!, OUT[3]!, OUT[4]!, OUT[5]!] : [OUT[2]!, 0, 0, 0];
}

/** Volts across the ports of an element. */
export function portVolts(network: Network, e: Element, solution: Solution): readonly [number, number] {
  const [a, b, c, d] = endsOf(e);
  const { volts, rest } = solution;
  const across = (plus: NodeName, minus: NodeName): number => {
    const p = network.nodeIndex.get(plus) ?? -1;
    const q = network.nodeIndex.get(minus) ?? -1;
    const fine = rest ? (p < 0 ? 0 : rest[p]!) - (q < 0 ? 0 : rest[q]!) : 0;
    return (p < 0 ? 0 : volts[p]!) - (q < 0 ? 0 : volts[q]!) + fine;
  };
  return [across(a, b), c !== undefined && d !== undefined ? across(c, d) : 0];
}

/**
 * Current of an element, A, in the direction given with it: a to b; out of a for a source; ports `in` (into the
 * input) and `out` (out of the output) of regulators; `led` and `out` (into the collector) of an optocoupler.
 * Without a port: the first. Throws on a port the element has not.
 */
export function elementAmps(network: Network, element: Element, solution: Solution, port?: string): number {
  const [v1, v2] = portVolts(network, element, solution);
  return ampsAt(element, v1, v2, port);
}

/** Volts of node index `p` over `q` in a solution; ground is the node count. */
export function acrossOf({ volts, rest }: Solution): (p: number, q: number) => number {
  const n = volts.length;
  return (p, q) => {
    const coarse = (p < n ? volts[p]! : 0) - (q < n ? volts[q]! : 0);
    return rest ? coarse + ((p < n ? rest[p]! : 0) - (q < n ? rest[q]! : 0)) : coarse;
  };
}

/**
 * Currents of all elements, A, in the compiled order and in the direction given with each: `first` at the first port,
 * `second` at the second port of two-ports; and the power that each takes up, W (negative for what gives).
 */
export function allFlows(network: Network, elements: readonly Element[], solution: Solution): Flows {
  const first = new Float64Array(elements.length);
  const second = new Float64Array(elements.length);
  const watt = new Float64Array(elements.length);
  const across = acrossOf(solution);
  loadValues(network, elements);
  const { linear, one, two } = network;
  const { linearG, linearV, parOne, parTwo, eta } = network.work;
  for (let k = 0; k < linear.count; k++) {
    const at = linear.element[k]!;
    const v = across(linear.from[k]!, linear.to[k]!);
    const amp = linearG[k]! * (v - linearV[k]!);
    first[at] = network.kinds[at] === 'source' ? -amp : amp;
    watt[at] = v * amp;
  }
  for (let k = 0; k < one.count; k++) {
    const at = one.element[k]!;
    const v = across(one.from[k]!, one.to[k]!);
    lawOne(one.code[k]!, parOne, k * STRIDE, v);
    first[at] = OUT[0]!;
    watt[at] = v * OUT[0]!;
  }
  for (let k = 0; k < two.count; k++) {
    const at = two.element[k]!;
    const code = two.code[k]!;
    const v = across(two.from[k]!, two.to[k]!);
    const w = across(two.from2[k]!, two.to2[k]!);
    lawTwo(code, parTwo, k * STRIDE, eta[k]!, v, w);
    first[at] = OUT[0]!;
    second[at] = code === CODE.opto ? OUT[1]! : -OUT[1]!;
    watt[at] = v * OUT[0]! + w * OUT[1]!;
  }
  return { first, second, watt };
}

export interface Flows {
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly watt: Float64Array;
}

/** Currents of all elements alone. */
export function allAmps(network: Network, elements: readonly Element[], solution: Solution): Pick<Flows, 'first' | 'second'> {
  return allFlows(network, elements, solution);
}

/** The same at given port volts. */
export function ampsAt(element: Element, v1: number, v2: number, port?: string): number {
  const { first, signs } = direction(element, port);
  const flow = flowOf(element, v1, v2);
  return first ? signs * flow.i1 : signs * flow.i2;
}

/** Which port current a port name means, and its sign. */
export function direction(element: Element, port?: string): { first: boolean; signs: 1 | -1 } {
  switch (element.kind) {
    case 'source':
      return { first: true, signs: -1 };
    case 'stepdown':
    case 'linear':
      if (port === undefined || port === 'in') return { first: true, signs: 1 };
      if (port === 'out') return { first: false, signs: -1 };
      break;
    case 'opto':
      if (port === undefined || port === 'led') return { first: true, signs: 1 };
      if (port === 'out') return { first: false, signs: 1 };
      break;
    default:
      return { first: true, signs: 1 };
  }
  throw new Error(`element ${element.id} (${element.kind}) has no port ${port}`);
}

export interface Audit {
  /** Largest net current at a node, A: Kirchhoff's current law left this much over. */
  readonly worstKclA: number;
  readonly worstKclNode: NodeName | null;
  /** Largest current of any element at that node, A. */
  readonly largestA: number;
  /** Sum of the power all elements take up (sources negative), W: zero but for rounding. */
  readonly powerImbalanceW: number;
  /** Sum of the absolute powers, W. */
  readonly grossPowerW: number;
}

/** Checks a solution with nothing but the element laws: currents at every node, powers of all elements. */
export function audit(network: Network, elements: readonly Element[], solution: Solution): Audit {
  const n = network.nodes.length;
  const net = new Float64Array(n + 1);
  const peak = new Float64Array(n + 1);
  let sumW = 0;
  let grossW = 0;
  const add = (name: NodeName, amp: number): void => {
    const k = network.nodeIndex.get(name)!;
    const place = k < 0 ? n : k;
    net[place]! += amp;
    peak[place] = Math.max(peak[place]!, Math.abs(amp));
  };
  for (const e of elements) {
    const [v1, v2] = portVolts(network, e, solution);
    const [a, b, c, d] = endsOf(e);
    const { i1, i2 } = flowOf(e, v1, v2);
    add(a, i1);
    add(b, -i1);
    if (c !== undefined && d !== undefined) {
      add(c, i2);
      add(d, -i2);
    }
    sumW += v1 * i1 + v2 * i2;
    grossW += Math.abs(v1 * i1) + Math.abs(v2 * i2);
  }
  let worst = -1;
  let share = -1;
  for (let k = 0; k < n; k++) {
    const left = Math.abs(net[k]!) / (1e-9 + 1e-9 * peak[k]!);
    if (left > share || Number.isNaN(left)) {
      share = left;
      worst = k;
      if (Number.isNaN(left)) break;
    }
  }
  return {
    worstKclA: worst < 0 ? 0 : Math.abs(net[worst]!),
    worstKclNode: worst < 0 ? null : network.nodes[worst]!,
    largestA: worst < 0 ? 0 : peak[worst]!,
    powerImbalanceW: Math.abs(sumW),
    grossPowerW: grossW,
  };
}
