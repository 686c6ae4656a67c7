import type { Facts } from '../analysis/factsTypes.ts';
import { nodeName } from '../analysis/graph.ts';
import { PAIRED_FORMS } from '../parts/types.ts';
import type { Wire } from '../plan/types.ts';

/** Chassis bars and battery negative are one body here: what matters is what hangs together. */
export const BODY = 'body';

/** Two nodes that a conductor joins. */
export interface Join {
  readonly a: string;
  readonly b: string;
  readonly wire: Wire | null;
  /** Second conductor of a cable: screen, or 0 V of a data lead. */
  readonly screen: boolean;
  /** Screen of a sound lead. */
  readonly audio: boolean;
}

const cache = new WeakMap<Facts, readonly Join[]>();

/** Everything that joins nodes without a fuse, contact or resistor: wires, screens, joints, cables, and the body. */
export function groundJoins(facts: Facts): readonly Join[] {
  let list = cache.get(facts);
  if (!list) {
    list = collect(facts);
    cache.set(facts, list);
  }
  return list;
}

function collect(facts: Facts): Join[] {
  const list: Join[] = [];
  const name = (key: string): string => (key === '0' || key.startsWith('chassis:') ? BODY : key);
  for (const w of Object.values(facts.plan.wires)) {
    const [from, to] = [`${w.from.part}.${w.from.terminal}`, `${w.to.part}.${w.to.terminal}`];
    const [a, b] = [facts.at(from), facts.at(to)];
    if (!a || !b) continue;
    list.push({ a: from, b: to, wire: w, screen: false, audio: false });
    if (PAIRED_FORMS.has(a.terminal.form) && PAIRED_FORMS.has(b.terminal.form))
      list.push({ a: `${from}~0`, b: `${to}~0`, wire: w, screen: true, audio: a.terminal.form === 'jack' && b.terminal.form === 'jack' });
  }
  for (const view of facts.parts.values()) {
    if (view.facts.sources?.some((s) => s.kind === 'feed')) continue;
    for (const link of view.facts.links ?? []) {
      if (link.type !== 'join' && link.type !== 'conductor') continue;
      const audio = view.kind.kind === 'audio-lead' && link.a.endsWith('~0');
      // A cable's second conductor goes from plug to plug; a plug's screen inside a device is a joint of that device.
      const screen = link.a.endsWith('~0') && link.b.endsWith('~0') && link.type === 'conductor';
      list.push({ a: name(nodeName(view, link.a)), b: name(nodeName(view, link.b)), wire: null, screen, audio });
    }
  }
  return list;
}

/** Which nodes hang together: the same number for all that do. A node that nothing joins has a number of its own. */
export function rooter(joins: readonly Join[], without?: Join): (node: string) => number {
  const numberOf = new Map<string, number>();
  const parent: number[] = [];
  const number = (node: string): number => {
    let n = numberOf.get(node);
    if (n === undefined) {
      n = parent.length;
      numberOf.set(node, n);
      parent.push(n);
    }
    return n;
  };
  const root = (start: number): number => {
    let n = start;
    while (parent[n] !== n) {
      parent[n] = parent[parent[n]!]!;
      n = parent[n]!;
    }
    return n;
  };
  for (const j of joins) if (j !== without) parent[root(number(j.a))] = root(number(j.b));
  return (node) => root(number(node));
}

/** Do its two ends come apart when this join opens? */
export function isBridge(joins: readonly Join[], join: Join): boolean {
  const root = rooter(joins, join);
  return root(join.a) !== root(join.b);
}
