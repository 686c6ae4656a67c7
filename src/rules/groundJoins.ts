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

/** Which nodes hang together. */
export function rooter(joins: readonly Join[]): (node: string) => string {
  const parent = new Map<string, string>();
  const root = (n: string): string => {
    const up = parent.get(n) ?? n;
    if (up === n) return n;
    const top = root(up);
    parent.set(n, top);
    return top;
  };
  for (const j of joins) parent.set(root(j.a), root(j.b));
  return root;
}

/** Joins without which two pieces of a plan no longer hang together (bridges, found by depth-first numbering). */
export function bridges(joins: readonly Join[]): ReadonlySet<Join> {
  const near = new Map<string, { readonly to: string; readonly by: Join }[]>();
  const put = (from: string, to: string, by: Join): void => {
    const list = near.get(from);
    if (list) list.push({ to, by });
    else near.set(from, [{ to, by }]);
  };
  for (const j of joins) {
    if (j.a === j.b) continue;
    put(j.a, j.b, j);
    put(j.b, j.a, j);
  }
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const found = new Set<Join>();
  for (const start of near.keys()) {
    if (order.has(start)) continue;
    order.set(start, order.size);
    low.set(start, order.get(start)!);
    const stack: { node: string; by: Join | null; next: number }[] = [{ node: start, by: null, next: 0 }];
    while (stack.length > 0) {
      const top = stack[stack.length - 1]!;
      const step = near.get(top.node)![top.next++];
      if (step) {
        if (step.by === top.by) continue;
        const seen = order.get(step.to);
        if (seen !== undefined) low.set(top.node, Math.min(low.get(top.node)!, seen));
        else {
          order.set(step.to, order.size);
          low.set(step.to, order.get(step.to)!);
          stack.push({ node: step.to, by: step.by, next: 0 });
        }
        continue;
      }
      stack.pop();
      const up = stack[stack.length - 1];
      if (!up) continue;
      low.set(up.node, Math.min(low.get(up.node)!, low.get(top.node)!));
      if (top.by && low.get(top.node)! > order.get(up.node)!) found.add(top.by);
    }
  }
  return found;
}
