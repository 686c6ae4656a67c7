import type { Kept, Network, Ports } from './network.ts';
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

/**
 * Takes the element values into the flat arrays of the network. Most elements are the very same from one solution to the
 * next: only the figures of others are worked out. Throws when the elements are not those compiled.
 */
export function loadValues(network: Network, elements: readonly Element[]): void {
  const { linear, one, two, kinds, work } = network;
  const { kept } = work;
  if (elements.length !== kinds.length) throw new Error(`${elements.length} elements given to a network of ${kinds.length}`);
  let conducts = true;
  for (let k = 0; k < linear.count; k++) {
    const place = linear.element[k]!;
    if (elements[place] === kept.elements[place]) continue;
    const e = at(elements, kinds, place);
    const g = conductance(e);
    if (g !== kept.linearG[k]!) conducts = false;
    kept.linearG[k] = g;
    kept.linearV[k] = e.kind === 'source' ? e.volt : 0;
    kept.elements[place] = e;
  }
  for (let k = 0; k < one.count; k++) {
    const place = one.element[k]!;
    if (elements[place] === kept.elements[place]) continue;
    const e = at(elements, kinds, place);
    prepareOne(e as OneWay, kept.parOne, k * STRIDE);
    kept.elements[place] = e;
  }
  let gives = true;
  for (let k = 0; k < two.count; k++) {
    const place = two.element[k]!;
    if (elements[place] === kept.elements[place]) continue;
    const e = at(elements, kinds, place) as TwoWay;
    prepareTwo(e, kept.parTwo, k * STRIDE);
    if (e.kind === 'stepdown') work.eta[k] = e.eta;
    kept.elements[place] = e;
    gives = false;
  }
  if (!conducts) stampLinear(linear, kept);
  work.linearValues.set(kept.linearValues);
  work.linearG.set(kept.linearG);
  work.linearV.set(kept.linearV);
  work.parOne.set(kept.parOne);
  work.parTwo.set(kept.parTwo);
  if (!conducts || !gives) tieIslands(network);
}

function stampLinear({ count, slots }: Ports, { linearG, linearValues }: Kept): void {
  linearValues.fill(0);
  for (let k = 0; k < count; k++) {
    const g = linearG[k]!;
    const s = 4 * k;
    linearValues[slots[s]!]! += g;
    linearValues[slots[s + 1]!]! += g;
    linearValues[slots[s + 2]!]! -= g;
    linearValues[slots[s + 3]!]! -= g;
  }
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
  const floating = new Set<number>();
  work.floating = floating;
  work.tieCount = 0;
  const ground = find(n);
  let firstOf: Map<number, number> | null = null;
  for (let k = 0; k < n; k++) {
    const r = find(k);
    if (r === ground) continue;
    floating.add(k);
    firstOf ??= new Map();
    const first = firstOf.get(r);
    // By name, so that the tie does not depend on the order of the elements.
    if (first === undefined || nodes[k]! < nodes[first]!) firstOf.set(r, k);
  }
  if (firstOf) for (const k of firstOf.values()) work.ties[work.tieCount++] = k;
}
