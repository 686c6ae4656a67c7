import type { Network } from './network.ts';
import { LEAST_OHM, type OneWay, prepareOne, prepareTwo, STRIDE, type TwoWay } from './ports.ts';
import type { Element } from './types.ts';

/** At or above this a resistance counts as open: it would vanish beside the rounding of the wires next to it. */
export const OPEN_OHM = 1e10;

/** Conductance of a linear element, S; 0 for what is not linear. */
export function conductance(e: Element): number {
  switch (e.kind) {
    case 'resistor':
    case 'source':
    case 'inductor':
      return e.ohm >= OPEN_OHM ? 0 : 1 / Math.max(e.ohm, LEAST_OHM);
    case 'capacitor':
      return e.leakOhm >= OPEN_OHM ? 0 : 1 / Math.max(e.leakOhm, LEAST_OHM);
    default:
      return 0;
  }
}

/** Conductance (S) and, for a source, the driving voltage (V) of a linear element. */
export function linearFigures(e: Element): { g: number; volt: number } {
  return { g: conductance(e), volt: e.kind === 'source' ? e.volt : 0 };
}

/** Takes the element values into the flat arrays of the network. Throws when the elements are not those compiled. */
export function loadValues(network: Network, elements: readonly Element[]): void {
  const { linear, one, two, kinds, work } = network;
  if (elements.length !== kinds.length) throw new Error(`${elements.length} elements given to a network of ${kinds.length}`);
  const { linearValues, linearG, linearV } = work;
  linearValues.fill(0);
  for (let k = 0; k < linear.count; k++) {
    const e = at(elements, kinds, linear.element[k]!);
    const g = conductance(e);
    linearG[k] = g;
    linearV[k] = e.kind === 'source' ? e.volt : 0;
    const s = 4 * k;
    linearValues[linear.slots[s]!]! += g;
    linearValues[linear.slots[s + 1]!]! += g;
    linearValues[linear.slots[s + 2]!]! -= g;
    linearValues[linear.slots[s + 3]!]! -= g;
  }
  for (let k = 0; k < one.count; k++) prepareOne(at(elements, kinds, one.element[k]!) as OneWay, work.parOne, k * STRIDE);
  for (let k = 0; k < two.count; k++) {
    const e = at(elements, kinds, two.element[k]!) as TwoWay;
    prepareTwo(e, work.parTwo, k * STRIDE);
    if (e.kind === 'stepdown') work.eta[k] = e.eta;
  }
  tieIslands(network);
}

function at(elements: readonly Element[], kinds: readonly Element['kind'][], k: number): Element {
  const e = elements[k]!;
  if (e.kind !== kinds[k]) throw new Error(`element ${e.id} is a ${e.kind}, compiled was a ${kinds[k]}`);
  return e;
}

/**
 * Finds the islands without a conducting path to ground and the one node of each that is tied. Only what can never
 * conduct separates: open resistances and the outputs of converters that are off. Junctions conduct, for they leak.
 */
function tieIslands(network: Network): void {
  const { linear, one, two, nodes, work } = network;
  const n = nodes.length;
  const root = work.rank;
  for (let k = 0; k <= n; k++) root[k] = k;
  const find = (start: number): number => {
    let k = start;
    while (root[k] !== k) {
      root[k] = root[root[k]!]!;
      k = root[k]!;
    }
    return k;
  };
  const join = (a: number, b: number): void => {
    const ra = find(a);
    const rb = find(b);
    if (ra === rb) return;
    // Ground (n) stays the root of its island.
    if (ra > rb) root[rb] = ra;
    else root[ra] = rb;
  };
  for (let k = 0; k < linear.count; k++) if (work.linearG[k]! > 0) join(linear.from[k]!, linear.to[k]!);
  for (let k = 0; k < one.count; k++) join(one.from[k]!, one.to[k]!);
  for (let k = 0; k < two.count; k++) {
    join(two.from[k]!, two.to[k]!);
    const isOff = network.kinds[two.element[k]!] === 'stepdown' && !work.parTwo[k * STRIDE];
    if (!isOff) join(two.from2[k]!, two.to2[k]!);
  }
  work.floating.clear();
  work.tieCount = 0;
  const ground = find(n);
  let firstOf: Map<number, number> | null = null;
  for (let k = 0; k < n; k++) {
    const r = find(k);
    if (r === ground) continue;
    work.floating.add(k);
    firstOf ??= new Map();
    const first = firstOf.get(r);
    // By name, so that the tie does not depend on the order of the elements.
    if (first === undefined || nodes[k]! < nodes[first]!) firstOf.set(r, k);
  }
  if (firstOf) for (const k of firstOf.values()) work.ties[work.tieCount++] = k;
}
