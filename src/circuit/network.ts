import type { Factors } from './factors.ts';
import { CODE, type Curve, STRIDE } from './ports.ts';
import { analyse, type Symbolic } from './sparse.ts';
import type { Element, NodeName } from './types.ts';

export const GROUND: NodeName = '0';

/** Ports of one class of elements in flat arrays; ground is index n, its matrix places are the spare one at the end. */
export interface Ports {
  readonly count: number;
  /** Index of the element in the compiled order. */
  readonly element: Int32Array;
  readonly code: Uint8Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Second port of two-ports. */
  readonly from2: Int32Array;
  readonly to2: Int32Array;
  /** Places in the value array: per port pair (++, --, +-, -+); one pair for one-ports, four (11, 12, 21, 22) for two-ports. */
  readonly slots: Int32Array;
}

/** Elements that were loaded last, by place, and their figures as they were then. */
export interface Kept extends Pick<Workspace, 'linearValues' | 'linearG' | 'linearV' | 'parOne' | 'parTwo'> {
  readonly elements: Element[];
}

/** Buffers that successive solves of one network share; nothing in them outlives a call but what was loaded. */
export interface Workspace {
  readonly kept: Kept;
  readonly values: Float64Array;
  /** Matrix of the linear elements alone, kept through the iterations of one solve. */
  readonly linearValues: Float64Array;
  readonly linearG: Float64Array;
  /** Driving volts of sources, 0 for the other linear elements. */
  readonly linearV: Float64Array;
  readonly parOne: Float64Array;
  readonly parTwo: Float64Array;
  readonly eta: Curve[];
  /** Volts at which each port is linearised, current and slope there. */
  readonly atOne: Float64Array;
  readonly ampOne: Float64Array;
  readonly slopeOne: Float64Array;
  readonly atTwo: Float64Array;
  readonly at2: Float64Array;
  readonly ampTwo: Float64Array;
  readonly slopeTwo: Float64Array;
  /** Net current leaving each node, the largest single current there and what rounding of the laws may leave, A. */
  readonly residual: Float64Array;
  readonly peak: Float64Array;
  readonly rounding: Float64Array;
  readonly step: Float64Array;
  /** Volts, ground last. */
  readonly x: Float64Array;
  /** What `x` lost by rounding in the last step, V: a wire of 0.1 mohm turns one rounding of 12 V into 18 pA. */
  readonly rest: Float64Array;
  readonly trial: Float64Array;
  readonly rank: Int32Array;
  /** Nodes at which a floating island is tied, in the first `tieCount` places. */
  readonly ties: Int32Array;
  tieCount: number;
  floating: ReadonlySet<number>;
  factors: Factors | null;
  /** The factors hold the full slopes near the last solution, not those of an early step. */
  isTangent: boolean;
}

/** A compiled network: structure only, good for any values of the same elements. */
export interface Network {
  /** Node names by index; ground is not among them. */
  readonly nodes: readonly NodeName[];
  /** Index by name; ground `0` is -1. */
  readonly nodeIndex: ReadonlyMap<NodeName, number>;
  /** Index of each element, by id, in the compiled order. */
  readonly elementIndex: ReadonlyMap<string, number>;
  readonly kinds: readonly Element['kind'][];
  readonly linear: Ports;
  readonly one: Ports;
  readonly two: Ports;
  readonly symbolic: Symbolic;
  /** Place of each diagonal in the value array. */
  readonly diagonal: Int32Array;
  readonly work: Workspace;
}

type Ends = readonly [a: NodeName, b: NodeName, c?: NodeName, d?: NodeName];

/** Port ends of an element: (a, b), or (a, b, c, d) for two-ports. */
export function endsOf(e: Element): Ends {
  switch (e.kind) {
    case 'stepdown':
    case 'linear':
      return [e.in, e.gnd, e.out, e.gnd];
    case 'opto':
      return [e.a, e.k, e.c, e.e];
    default:
      return [e.a, e.b];
  }
}

const isLinear = (e: Element): boolean => e.kind === 'resistor' || e.kind === 'source' || e.kind === 'capacitor' || e.kind === 'inductor';
const isTwo = (e: Element): boolean => e.kind === 'stepdown' || e.kind === 'linear' || e.kind === 'opto';

/**
 * Numbers the nodes (ground -1, the others in order of appearance), builds the pattern of the nodal equations and
 * its elimination order. Throws when two elements share an id.
 */
export function compile(elements: readonly Element[]): Network {
  const nodes: NodeName[] = [];
  const nodeIndex = new Map<NodeName, number>([[GROUND, -1]]);
  const elementIndex = new Map<string, number>();
  elements.forEach((e, k) => {
    if (elementIndex.has(e.id)) throw new Error(`two elements are called ${e.id}`);
    elementIndex.set(e.id, k);
    for (const name of endsOf(e)) {
      if (name === undefined || nodeIndex.has(name)) continue;
      nodeIndex.set(name, nodes.length);
      nodes.push(name);
    }
  });
  const n = nodes.length;
  const place = (name: NodeName | undefined): number => {
    const k = name === undefined ? -1 : nodeIndex.get(name)!;
    return k < 0 ? n : k;
  };
  const gather = (wanted: (e: Element) => boolean): Ports => {
    const picked = elements.flatMap((e, k) => (wanted(e) ? [k] : []));
    const ends = picked.map((k) => endsOf(elements[k]!));
    return {
      count: picked.length,
      element: Int32Array.from(picked),
      code: Uint8Array.from(picked, (k) => (CODE as Record<string, number>)[elements[k]!.kind] ?? 0),
      from: Int32Array.from(ends, (e) => place(e[0])),
      to: Int32Array.from(ends, (e) => place(e[1])),
      from2: Int32Array.from(ends, (e) => place(e[2])),
      to2: Int32Array.from(ends, (e) => place(e[3])),
      slots: new Int32Array(picked.length * (picked.length > 0 && isTwo(elements[picked[0]!]!) ? 16 : 4)),
    };
  };
  const linear = gather(isLinear);
  const two = gather(isTwo);
  const one = gather((e) => !isLinear(e) && !isTwo(e));
  const { pattern, find } = buildPattern(n, linear, one, two);
  for (const ports of [linear, one]) {
    for (let k = 0; k < ports.count; k++) writeSlots(ports.slots, 4 * k, find, ports.from[k]!, ports.to[k]!, ports.from[k]!, ports.to[k]!);
  }
  for (let k = 0; k < two.count; k++) {
    const [p, q, r, s] = [two.from[k]!, two.to[k]!, two.from2[k]!, two.to2[k]!];
    writeSlots(two.slots, 16 * k, find, p, q, p, q);
    writeSlots(two.slots, 16 * k + 4, find, p, q, r, s);
    writeSlots(two.slots, 16 * k + 8, find, r, s, p, q);
    writeSlots(two.slots, 16 * k + 12, find, r, s, r, s);
  }
  return {
    nodes,
    nodeIndex,
    elementIndex,
    kinds: elements.map((e) => e.kind),
    linear,
    one,
    two,
    symbolic: analyse(pattern),
    diagonal: Int32Array.from({ length: n }, (_, k) => find(k, k)),
    work: workspace(n, pattern.rowIndex.length, linear.count, one.count, two.count),
  };
}

type Find = (row: number, column: number) => number;

function writeSlots(slots: Int32Array, at: number, find: Find, p: number, q: number, r: number, s: number): void {
  slots[at] = find(p, r);
  slots[at + 1] = find(q, s);
  slots[at + 2] = find(p, s);
  slots[at + 3] = find(q, r);
}

/** Symmetric pattern with a full diagonal; `find` gives the place of an entry, the spare place for ground. */
function buildPattern(n: number, linear: Ports, one: Ports, two: Ports): { pattern: Symbolic['pattern']; find: Find } {
  const columns: Set<number>[] = Array.from({ length: n }, (_, k) => new Set([k]));
  const join = (a: number, b: number): void => {
    if (a === n || b === n) return;
    columns[a]!.add(b);
    columns[b]!.add(a);
  };
  for (const ports of [linear, one]) for (let k = 0; k < ports.count; k++) join(ports.from[k]!, ports.to[k]!);
  for (let k = 0; k < two.count; k++) {
    const ends = [two.from[k]!, two.to[k]!, two.from2[k]!, two.to2[k]!];
    for (const a of ends) for (const b of ends) join(a, b);
  }
  const colPtr = new Int32Array(n + 1);
  const places: Map<number, number>[] = [];
  const rows: number[] = [];
  columns.forEach((set, c) => {
    const place = new Map<number, number>();
    for (const r of set) {
      place.set(r, rows.length);
      rows.push(r);
    }
    places.push(place);
    colPtr[c + 1] = rows.length;
  });
  const spare = rows.length;
  const find: Find = (row, column) => (row === n || column === n ? spare : (places[column]!.get(row) ?? spare));
  return { pattern: { n, colPtr, rowIndex: Int32Array.from(rows) }, find };
}

function workspace(n: number, entries: number, linear: number, one: number, two: number): Workspace {
  const array = (length: number): Float64Array => new Float64Array(length);
  return {
    kept: {
      elements: [],
      linearValues: array(entries + 1),
      linearG: array(linear).fill(Number.NaN),
      linearV: array(linear),
      parOne: array(one * STRIDE),
      parTwo: array(two * STRIDE),
    },
    values: array(entries + 1),
    linearValues: array(entries + 1),
    linearG: array(linear),
    linearV: array(linear),
    parOne: array(one * STRIDE),
    parTwo: array(two * STRIDE),
    eta: Array.from({ length: two }, () => []),
    atOne: array(one),
    ampOne: array(one),
    slopeOne: array(one),
    atTwo: array(two),
    at2: array(two),
    ampTwo: array(2 * two),
    slopeTwo: array(4 * two),
    residual: array(n + 1),
    peak: array(n + 1),
    rounding: array(n + 1),
    step: array(n),
    x: array(n + 1),
    rest: array(n + 1),
    trial: array(n + 1),
    rank: new Int32Array(n + 1),
    ties: new Int32Array(n + 1),
    tieCount: 0,
    floating: new Set(),
    factors: null,
    isTangent: false,
  };
}
