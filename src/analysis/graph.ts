import { type Link, PAIRED_FORMS } from '../parts/types.ts';
import type { Id, Plan, Wire } from '../plan/types.ts';
import type { PartView } from './factsTypes.ts';
import { bySerial, viewsOf } from './views.ts';

/** An edge between two nodes: a wire (or one conductor of a cable) or a link inside a part. */
export interface Edge {
  readonly a: number;
  readonly b: number;
  readonly wire: Wire | null;
  readonly view: PartView | null;
  readonly link: Link | null;
}

/**
 * The plan as nodes and edges. A node is a terminal (`part.terminal`), the second conductor of a paired terminal
 * (`part.terminal~0`), a chassis bar (`chassis:zone`), or a battery post (`battery`, `0`).
 */
export interface Graph {
  readonly plan: Plan;
  readonly views: ReadonlyMap<Id, PartView>;
  readonly nodes: readonly string[];
  readonly indexOf: ReadonlyMap<string, number>;
  readonly edges: readonly Edge[];
  /** Edge numbers at each node. */
  readonly at: readonly (readonly number[])[];
  /** Net of each node: wires and joins only. */
  readonly net: Int32Array;
  readonly netNodes: readonly (readonly number[])[];
  /** Wires in order of making. */
  readonly wires: readonly Wire[];
}

/** Global node behind a node name that a part uses. */
export function nodeName(view: PartView, local: string): string {
  if (local === '@battery') return 'battery';
  if (local === '@0') return '0';
  if (local === '@chassis') return `chassis:${view.part.zone}`;
  return local.startsWith('~') ? `${view.part.id}${local}` : `${view.part.id}.${local}`;
}

/** Builds the graph of a plan. Wires to missing parts or terminals are left out (the codec refuses them). */
export function buildGraph(plan: Plan): Graph {
  const views = viewsOf(plan);
  const nodes: string[] = [];
  const indexOf = new Map<string, number>();
  const add = (name: string): number => {
    let i = indexOf.get(name);
    if (i === undefined) {
      i = nodes.length;
      indexOf.set(name, i);
      nodes.push(name);
    }
    return i;
  };
  const paired = new Set<string>();
  add('0');
  add('battery');
  for (const view of views.values()) {
    for (const t of view.terminals) {
      const key = `${view.part.id}.${t.id}`;
      add(key);
      if (PAIRED_FORMS.has(t.form)) {
        paired.add(key);
        add(`${key}~0`);
      }
    }
  }
  const edges: Edge[] = [];
  const wires = Object.values(plan.wires).sort(bySerial);
  for (const wire of wires) {
    const from = `${wire.from.part}.${wire.from.terminal}`;
    const to = `${wire.to.part}.${wire.to.terminal}`;
    const a = indexOf.get(from);
    const b = indexOf.get(to);
    if (a === undefined || b === undefined) continue;
    edges.push({ a, b, wire, view: null, link: null });
    if (paired.has(from) && paired.has(to)) edges.push({ a: add(`${from}~0`), b: add(`${to}~0`), wire, view: null, link: null });
  }
  for (const view of views.values()) {
    // A feed is a source of its own: its resistance and donor fuse stand for the vehicle's way from the battery.
    if (view.facts.sources?.some((s) => s.kind === 'feed')) continue;
    for (const link of view.facts.links ?? []) {
      edges.push({ a: add(nodeName(view, link.a)), b: add(nodeName(view, link.b)), wire: null, view, link });
    }
  }
  const at: number[][] = nodes.map(() => []);
  edges.forEach((e, i) => {
    at[e.a]!.push(i);
    if (e.b !== e.a) at[e.b]!.push(i);
  });
  const { net, netNodes } = nets(nodes.length, edges);
  return { plan, views, nodes, indexOf, edges, at, net, netNodes, wires };
}

/**
 * The graph of the same plan with other values filled in: sizes, ratings, resistances. Built anew when the plan turns out
 * to have other parts, terminals or links.
 */
export function regraph(graph: Graph, plan: Plan): Graph {
  const views = viewsOf(plan);
  if (views.size !== graph.views.size || Object.keys(plan.wires).length !== graph.wires.length) return buildGraph(plan);
  for (const [id, view] of views) {
    const before = graph.views.get(id);
    if (!before || !isAlike(before, view)) return buildGraph(plan);
  }
  const wires: Wire[] = [];
  for (const { id, from, to } of graph.wires) {
    const wire = plan.wires[id];
    if (!wire || wire.from !== from || wire.to !== to) return buildGraph(plan);
    wires.push(wire);
  }
  const linkAt = new Map<Link, Link>();
  for (const [id, view] of views) {
    const now = view.facts.links ?? [];
    graph.views.get(id)!.facts.links?.forEach((link, i) => {
      linkAt.set(link, now[i]!);
    });
  }
  const edges = graph.edges.map((e): Edge => {
    if (e.wire) return { ...e, wire: plan.wires[e.wire.id]! };
    return { ...e, view: views.get(e.view!.part.id)!, link: linkAt.get(e.link!)! };
  });
  return { ...graph, plan, views, edges, wires };
}

/** Same terminals and links, whatever their figures. */
function isAlike(a: PartView, b: PartView): boolean {
  if (a.part === b.part) return true;
  const [x, y] = [a.facts.links ?? [], b.facts.links ?? []];
  return (
    a.kind === b.kind &&
    a.part.zone === b.part.zone &&
    a.terminals.length === b.terminals.length &&
    a.terminals.every((t, i) => t.id === b.terminals[i]!.id) &&
    x.length === y.length &&
    x.every((l, i) => l.a === y[i]!.a && l.b === y[i]!.b && l.type === y[i]!.type)
  );
}

function nets(count: number, edges: readonly Edge[]): { net: Int32Array; netNodes: number[][] } {
  const parent = Int32Array.from({ length: count }, (_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while (parent[r] !== r) r = parent[r]!;
    while (parent[i] !== r) {
      const next = parent[i]!;
      parent[i] = r;
      i = next;
    }
    return r;
  };
  for (const e of edges) if (e.wire || e.link?.type === 'join') parent[root(e.a)] = root(e.b);
  const net = new Int32Array(count);
  const numberOf = new Map<number, number>();
  const netNodes: number[][] = [];
  for (let i = 0; i < count; i++) {
    const r = root(i);
    let n = numberOf.get(r);
    if (n === undefined) {
      n = netNodes.length;
      numberOf.set(r, n);
      netNodes.push([]);
    }
    net[i] = n;
    netNodes[n]!.push(i);
  }
  return { net, netNodes };
}

/** A chassis bar or the battery's negative post: where current ends. */
export function isGroundNode(name: string): boolean {
  return name === '0' || name.startsWith('chassis:');
}

/** Node at the other end of an edge. */
export function other(edge: Edge, node: number): number {
  return edge.a === node ? edge.b : edge.a;
}
