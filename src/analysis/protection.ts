import { supplyCorners } from '../trade/supply.ts';
import { contactWays } from './changeovers.ts';
import type { PartView } from './factsTypes.ts';
import { type Edge, type Graph, nodeName } from './graph.ts';
import { type Half, holds, Islands } from './islands.ts';
import { type Arc, maxFlow } from './maxflow.ts';
import type { EndProtection } from './types.ts';

/** What can flow into the two ends of a wire. */
export interface Ends {
  readonly from: EndProtection;
  readonly to: EndProtection;
}

/** Link types through which a fault current passes unhindered, in any state that a contact can reach. */
const OPEN_WAY: ReadonlySet<string> = new Set(['join', 'contact', 'conductor']);

/** A part through which a fault current passes only up to a limit (fuse, resistor, coil), or one way (diode). */
interface Gate {
  readonly a: number;
  readonly b: number;
  readonly cap: number;
  readonly oneWay: boolean;
  readonly view: PartView;
}

interface Feed {
  readonly node: number;
  readonly cap: number;
  readonly view: PartView;
}

export const NO_SOURCE: EndProtection = { maxA: 0, byPart: null, byName: 'no source' };

/** The end into which more can flow. */
export function worseEnd(a: EndProtection, b: EndProtection): EndProtection {
  return b.maxA > a.maxA ? b : a;
}

/**
 * For every wire and each of its ends, the greatest current that can persist into that end from all sources together
 * with the wire removed: the maximum flow, edge capacity = fuse rating, resistor current or source limit, the worst of
 * all ways in which changeover contacts can stand. The chassis takes current and gives none.
 */
export class Protection {
  private readonly ways: readonly Way[];

  constructor(graph: Graph) {
    const gates = gatesOf(graph);
    const feeds = feedsOf(graph);
    this.ways = contactWays(graph).map((closed) => new Way(graph, gates, feeds, closed));
  }

  ofEdge(e: number): Ends {
    return this.ways.map((way) => way.ofEdge(e)).reduce((worst, next) => ({ from: worseEnd(worst.from, next.from), to: worseEnd(worst.to, next.to) }));
  }

  /** Greatest persistent current into a node with nothing removed. */
  intoNode(node: number): EndProtection {
    return this.ways.map((way) => way.intoNode(node)).reduce(worseEnd);
  }
}

/**
 * One way in which the contacts stand. Conductors that no gate separates form islands; only the islands and gates that
 * can feed the end in question make the flow problem, so a thousand wires stay quick.
 */
class Way {
  private readonly islands: Islands;
  /** Per island, what is attached to it, in the order in which the nodes were visited. */
  private readonly attached: readonly Attachment[][];
  private readonly memo = new Map<string, EndProtection>();

  constructor(
    private readonly graph: Graph,
    private readonly gates: readonly Gate[],
    private readonly feeds: readonly Feed[],
    closed: (link: NonNullable<Edge['link']>) => boolean,
  ) {
    this.islands = new Islands(graph, (e) => {
      const { link } = graph.edges[e]!;
      return link === null || (OPEN_WAY.has(link.type) && closed(link));
    });
    const attached: Attachment[][] = Array.from({ length: this.islands.count }, () => []);
    const attach = (node: number, what: number): void => {
      attached[this.islands.of[node]!]!.push({ what, time: this.islands.timeOf(node) });
    };
    gates.forEach((g, i) => {
      attach(g.a, i);
      attach(g.b, i);
    });
    feeds.forEach((f, i) => {
      attach(f.node, -(i + 1));
    });
    for (const list of attached) list.sort((x, y) => x.time - y.time);
    this.attached = attached;
  }

  ofEdge(e: number): Ends {
    const island = this.islands.of[this.graph.edges[e]!.a]!;
    const halves = this.islands.split(e);
    if (halves) return { from: this.into(island, halves.a, halves.b), to: this.into(island, halves.b, halves.a) };
    const both = this.into(island, null, null);
    return { from: both, to: both };
  }

  intoNode(node: number): EndProtection {
    return this.into(this.islands.of[node]!, null, null);
  }

  /** Flow into an island, or into one half of it with the other half cut off. */
  private into(island: number, half: Half | null, rest: Half | null): EndProtection {
    if (half?.grounded) return NO_SOURCE;
    const attached = this.attached[island]!;
    let key = `${island}`;
    if (half && rest) {
      // What hangs below a bridge stands side by side in the list: the range is all that tells one half from another.
      const from = firstAt(attached, half.from);
      const to = firstAt(attached, half.to);
      if (half.inside ? from === to : to - from === attached.length) return NO_SOURCE;
      key = `${island}|${from}|${to}|${half.inside}|${rest.grounded}`;
    } else if (attached.length === 0) return NO_SOURCE;
    let found = this.memo.get(key);
    if (!found) {
      found = this.solve(island, half, rest);
      this.memo.set(key, found);
    }
    return found;
  }

  private solve(island: number, half: Half | null, rest: Half | null): EndProtection {
    // Places: 0 all sources, 1 the end in question, 2 the other half of its island, 3... islands behind gates.
    const { of } = this.islands;
    const placeOf = new Map<number, number>();
    const behind: number[] = [];
    const place = (node: number): number => {
      const at = of[node]!;
      if (at === island) return half && !holds(half, this.islands.timeOf(node)) ? 2 : 1;
      let p = placeOf.get(at);
      if (p === undefined) {
        p = 3 + behind.length;
        placeOf.set(at, p);
        behind.push(at);
      }
      return p;
    };
    const isSink = (p: number): boolean => (p === 2 ? rest!.grounded : p >= 3 && this.islands.isGrounded(behind[p - 3]!));
    const arcs: Arc[] = [];
    const used = new Set<number>();
    const take = ({ what }: Attachment): void => {
      if (used.has(what)) return;
      used.add(what);
      if (what < 0) {
        const f = this.feeds[-what - 1]!;
        arcs.push({ from: 0, to: place(f.node), cap: f.cap, tag: what });
        return;
      }
      const g = this.gates[what]!;
      const [a, b] = [place(g.a), place(g.b)];
      if (!isSink(a)) arcs.push({ from: a, to: b, cap: g.cap, tag: what });
      if (!g.oneWay && !isSink(b)) arcs.push({ from: b, to: a, cap: g.cap, tag: what });
    };
    for (const x of this.attached[island]!) if (!half || !rest!.grounded || holds(half, x.time)) take(x);
    for (let q = 0; q < behind.length; q++) if (!this.islands.isGrounded(behind[q]!)) this.attached[behind[q]!]!.forEach(take);
    const { flow, cut } = maxFlow(3 + behind.length, arcs, 0, 1);
    if (flow === 0) return NO_SOURCE;
    if (flow === Number.POSITIVE_INFINITY) return { maxA: flow, byPart: null, byName: 'nothing' };
    const views = cut.map((tag) => (tag < 0 ? this.feeds[-tag - 1]!.view : this.gates[tag]!.view));
    const distinct = [...new Set(views)];
    return { maxA: flow, byPart: distinct[0]?.part.id ?? null, byName: distinct.map((v) => v.item).join(' + ') };
  }
}

/** A gate (its number), or a feed (-number - 1), at a node. */
interface Attachment {
  readonly what: number;
  readonly time: number;
}

/** Place of the first attachment that is not before a time. */
function firstAt(sorted: readonly Attachment[], time: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]!.time < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

function gatesOf(graph: Graph): Gate[] {
  const { hiV } = supplyCorners(graph.plan.vehicle.systemV, graph.plan.vehicle.dipLevel);
  const gates: Gate[] = [];
  for (const { link, view, a, b } of graph.edges) {
    if (!link || !view) continue;
    const gate = { a, b, view, oneWay: false };
    if (link.type === 'fuse') gates.push({ ...gate, cap: link.ratingA ?? Number.POSITIVE_INFINITY });
    if (link.type === 'resistor' || link.type === 'coil') gates.push({ ...gate, cap: hiV / Math.max(link.ohm ?? 1e-3, 1e-3) });
    if (link.type === 'diode') gates.push({ ...gate, cap: Number.POSITIVE_INFINITY, oneWay: true });
  }
  return gates;
}

function feedsOf(graph: Graph): Feed[] {
  const feeds: Feed[] = [];
  for (const view of graph.views.values()) {
    for (const s of view.facts.sources ?? []) {
      const node = graph.indexOf.get(nodeName(view, s.terminal));
      if (node === undefined) continue;
      const donor = s.donorFuseRead ? (s.donorFuseA ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
      feeds.push({ node, view, cap: Math.min(donor, s.limitA ?? Number.POSITIVE_INFINITY) });
    }
  }
  return feeds;
}
