import type { Facts } from '../analysis/factsTypes.ts';
import { nodeName } from '../analysis/graph.ts';
import { PAIRED_FORMS } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
import type { Wire } from '../plan/types.ts';
import { once } from './once.ts';
import { endedWires } from './wireEnds.ts';

/** Chassis bars and battery negative are one body here: what matters is what hangs together. */
export const BODY = 'body';

/** Two nodes that a conductor joins, by number. */
export interface Join {
  readonly a: number;
  readonly b: number;
  readonly wire: Wire | null;
  /** Second conductor of a cable: screen, or 0 V of a data lead. */
  readonly screen: boolean;
  /** Screen of a sound lead. */
  readonly audio: boolean;
}

/** All joins of a plan over numbered nodes. */
export interface Joins {
  readonly all: readonly Join[];
  readonly nodes: readonly string[];
  /** Number of a node; -1 for one that nothing joins. */
  at(node: string): number;
}

/** Everything that joins nodes without a fuse, contact or resistor: wires, screens, joints, cables, and the body. */
export const groundJoins = once(collect);

function collect(facts: Facts): Joins {
  const all: Join[] = [];
  const nodes: string[] = [];
  const numberOf = new Map<string, number>();
  const number = (key: string): number => {
    const node = key === '0' || key.startsWith('chassis:') ? BODY : key;
    let n = numberOf.get(node);
    if (n === undefined) {
      n = nodes.length;
      numberOf.set(node, n);
      nodes.push(node);
    }
    return n;
  };
  for (const { wire: w, from: a, to: b } of endedWires(facts)) {
    if (!a || !b) continue;
    const from = `${w.from.part}.${w.from.terminal}`;
    const to = `${w.to.part}.${w.to.terminal}`;
    all.push({ a: number(from), b: number(to), wire: w, screen: false, audio: false });
    if (PAIRED_FORMS.has(a.terminal.form) && PAIRED_FORMS.has(b.terminal.form)) {
      const audio = a.terminal.form === 'jack' && b.terminal.form === 'jack';
      all.push({ a: number(`${from}~0`), b: number(`${to}~0`), wire: w, screen: true, audio });
    }
  }
  for (const view of facts.parts.values()) {
    if (view.facts.sources?.some((s) => s.kind === 'feed')) continue;
    for (const link of view.facts.links ?? []) {
      if (link.type !== 'join' && link.type !== 'conductor') continue;
      const audio = view.kind.kind === 'audio-lead' && link.a.endsWith('~0');
      // A cable's second conductor goes from plug to plug; a plug's screen inside a device is a joint of that device.
      const screen = link.a.endsWith('~0') && link.b.endsWith('~0') && link.type === 'conductor';
      all.push({ a: number(nodeName(view, link.a)), b: number(nodeName(view, link.b)), wire: null, screen, audio });
    }
  }
  return { all, nodes, at: (node) => numberOf.get(node) ?? -1 };
}

/** Which nodes hang together over the joins let through: the same number for all that do. Node -1 hangs on nothing. */
export function rooter(joins: Joins, through: (j: Join) => boolean): (node: number) => number {
  const parent = new Int32Array(joins.nodes.length);
  for (let n = 0; n < parent.length; n++) parent[n] = n;
  const root = (start: number): number => {
    let n = start;
    while (n >= 0 && parent[n] !== n) {
      parent[n] = parent[parent[n]!]!;
      n = parent[n]!;
    }
    return n;
  };
  for (const j of joins.all) if (through(j)) parent[root(j.a)] = root(j.b);
  return root;
}

/** Those of a few joins whose ends come apart when they open, over the joins let through. */
export function bridgesAmong(joins: Joins, few: readonly Join[], through: (j: Join) => boolean): ReadonlySet<Join> {
  const some = new Set(few);
  const root = rooter(joins, (j) => !some.has(j) && through(j));
  // What is left is small: the few joins between lumps of all that hangs together without them.
  const lumps = new Map<number, { readonly join: Join; readonly to: number }[]>();
  for (const join of few) {
    const [a, b] = [root(join.a), root(join.b)];
    gather(lumps, a, { join, to: b });
    gather(lumps, b, { join, to: a });
  }
  const apart = new Set<Join>();
  // One walk over all lumps: a join comes apart when nothing behind it leads back to where the walk had been before.
  const turn = new Map<number, number>();
  const walk = (lump: number, by: Join | null): number => {
    const own = turn.size;
    turn.set(lump, own);
    let earliest = own;
    for (const { join, to } of lumps.get(lump)!) {
      if (join === by) continue;
      const seen = turn.get(to);
      const back = seen ?? walk(to, join);
      if (seen === undefined && back > own) apart.add(join);
      earliest = Math.min(earliest, back);
    }
    return earliest;
  };
  for (const lump of lumps.keys()) if (!turn.has(lump)) walk(lump, null);
  return new Set(few.filter((j) => through(j) && apart.has(j)));
}
