import type { Link } from '../parts/types.ts';
import type { PartView, Step, TerminalKey } from './factsTypes.ts';
import { type Graph, other } from './graph.ts';

export interface Trace {
  /** Link types that may be passed besides joins. */
  readonly through: readonly string[];
  readonly avoid?: ((view: PartView, link: Link) => boolean) | undefined;
  /** Node at which the trace may stop. */
  readonly until?: number;
}

/** What a node reaches through wires, joins and the given link types; -1 reaches nothing. */
export function reach(graph: Graph, from: number, { through, avoid, until }: Trace): ReadonlyMap<TerminalKey, readonly Step[]> {
  const reached = new Reached(graph);
  if (from === -1) return reached;
  const passes = new Set(through);
  const backwards = passes.has('diode-reverse');
  reached.add(from, -1, -1);
  for (let place = 0; place < reached.nodes.length; place++) {
    const node = reached.nodes[place]!;
    if (node === until) break;
    for (const e of graph.at[node]!) {
      const edge = graph.edges[e]!;
      const { link } = edge;
      if (link) {
        if (link.type !== 'join' && !passes.has(link.type)) continue;
        if (link.type === 'diode' && edge.a !== node && !backwards) continue;
        if (avoid && edge.view && avoid(edge.view, link)) continue;
      }
      const next = other(edge, node);
      if (!reached.places.has(next)) reached.add(next, e, place);
    }
  }
  return reached;
}

/**
 * What a trace has reached, in the order in which it came there. Rules mostly ask whether something is among it: the
 * steps to a terminal are put together when they are asked for.
 */
class Reached implements ReadonlyMap<TerminalKey, readonly Step[]> {
  readonly nodes: number[] = [];
  readonly places = new Map<number, number>();
  /** Edge by which each node was reached, and the place of the node before it. */
  private readonly via: number[] = [];
  private readonly before: number[] = [];
  private readonly steps: Step[] = [];

  constructor(private readonly graph: Graph) {}

  add(node: number, edge: number, before: number): void {
    this.places.set(node, this.nodes.length);
    this.nodes.push(node);
    this.via.push(edge);
    this.before.push(before);
  }

  get size(): number {
    return this.nodes.length;
  }

  has(key: TerminalKey): boolean {
    return this.placeOf(key) !== undefined;
  }

  get(key: TerminalKey): readonly Step[] | undefined {
    const place = this.placeOf(key);
    return place === undefined ? undefined : this.stepsTo(place);
  }

  forEach(each: (steps: readonly Step[], key: TerminalKey, map: ReadonlyMap<TerminalKey, readonly Step[]>) => void): void {
    for (const [key, steps] of this) each(steps, key, this);
  }

  *keys(): MapIterator<TerminalKey> {
    for (const node of this.nodes) yield this.graph.nodes[node]!;
  }

  *values(): MapIterator<readonly Step[]> {
    for (let place = 0; place < this.nodes.length; place++) yield this.stepsTo(place);
  }

  *entries(): MapIterator<[TerminalKey, readonly Step[]]> {
    for (let place = 0; place < this.nodes.length; place++) yield [this.graph.nodes[this.nodes[place]!]!, this.stepsTo(place)];
  }

  [Symbol.iterator](): MapIterator<[TerminalKey, readonly Step[]]> {
    return this.entries();
  }

  private placeOf(key: TerminalKey): number | undefined {
    const node = this.graph.indexOf.get(key);
    return node === undefined ? undefined : this.places.get(node);
  }

  private stepsTo(place: number): readonly Step[] {
    const way: Step[] = [];
    for (let at = place; this.before[at]! !== -1; at = this.before[at]!) way.push(this.stepAt(at));
    return way.reverse();
  }

  private stepAt(place: number): Step {
    let step = this.steps[place];
    if (!step) {
      const { wire, view, link } = this.graph.edges[this.via[place]!]!;
      step = { wire, through: view, linkType: link?.type ?? 'wire', at: this.graph.nodes[this.nodes[place]!]! };
      this.steps[place] = step;
    }
    return step;
  }
}
