import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { nodeName } from '../analysis/graph.ts';
import { memo } from '../analysis/memo.ts';
import { splitKey } from '../analysis/roles.ts';
import type { Link } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
import { once } from './once.ts';

/** One step from net to net: through one part, or through resistors side by side. */
export interface Hop {
  /** Parts gone through; more than one only for resistors in parallel. */
  readonly views: readonly PartView[];
  readonly link: Link;
  readonly from: number;
  readonly to: number;
  /** True when walked from the link's a to its b (anode to cathode). */
  readonly forward: boolean;
  readonly ohm: number;
}

/** The way to a net: hops in order and the resistance of the resistors on it, ohm. */
export interface Way {
  readonly hops: readonly Hop[];
  readonly ohm: number;
}

/** Hops that leave each net: links other than joins; a feed is a source and not walked through. */
export const hopsOf = once((facts): ReadonlyMap<number, readonly Hop[]> => {
  const map = new Map<number, Hop[]>();
  for (const view of facts.parts.values()) {
    if (view.facts.sources?.some((s) => s.kind === 'feed')) continue;
    for (const link of view.facts.links ?? []) {
      if (link.type === 'join') continue;
      const a = netOfNode(facts, view, link.a);
      const b = netOfNode(facts, view, link.b);
      if (a === -1 || b === -1 || a === b) continue;
      const ohm = link.type === 'resistor' ? (link.ohm ?? 0) : 0;
      put(map, { views: [view], link, from: a, to: b, forward: true, ohm });
      put(map, { views: [view], link, from: b, to: a, forward: false, ohm });
    }
  }
  return map;
});

/** Adds a hop; resistors between the same two nets become one. */
function put(map: Map<number, Hop[]>, hop: Hop): void {
  const list = map.get(hop.from) ?? [];
  map.set(hop.from, list);
  const twin = isResistor(hop) ? list.findIndex((h) => h.to === hop.to && isResistor(h)) : -1;
  const other = list[twin];
  if (!other) list.push(hop);
  else list[twin] = { ...other, views: [...other.views, ...hop.views], ohm: 1 / (1 / other.ohm + 1 / hop.ohm) };
}

export function isResistor(hop: Hop): boolean {
  return hop.link.type === 'resistor' && hop.views[0]!.kind.kind === 'resistor';
}

/** Nets reachable from one by the hops let through, each by its way of least resistance; not on beyond a net that stops. */
export function waysFrom(facts: Facts, start: number, through: (hop: Hop) => boolean, stops: (net: number) => boolean): ReadonlyMap<number, Way> {
  const done = new Map<number, Way>();
  const open = new Map<number, Way>(start === -1 ? [] : [[start, { hops: [], ohm: 0 }]]);
  const hops = hopsOf(facts);
  while (open.size > 0) {
    let net = -1;
    let way: Way = { hops: [], ohm: Number.POSITIVE_INFINITY };
    for (const [n, w] of open) if (net === -1 || w.ohm < way.ohm || (w.ohm === way.ohm && w.hops.length < way.hops.length)) [net, way] = [n, w];
    open.delete(net);
    done.set(net, way);
    if (net !== start && stops(net)) continue;
    for (const hop of hops.get(net) ?? []) {
      if (done.has(hop.to) || !through(hop)) continue;
      const ohm = way.ohm + hop.ohm;
      const known = open.get(hop.to);
      if (!known || ohm < known.ohm) open.set(hop.to, { hops: [...way.hops, hop], ohm });
    }
  }
  return done;
}

/**
 * Is the net joined to the body, the battery's negative post, or a board's or converter's 0 V? The ground ends of an
 * optocoupler and a clamp do not make one: a resistor may lie behind the one, a coil's low side at the other.
 */
export function grounded(facts: Facts, net: number): boolean {
  return groundedNets(facts)(net);
}

const groundedNets = once((facts) => memo((net: number): boolean => hasGround(facts, net)));

function hasGround(facts: Facts, net: number): boolean {
  return facts.netTerminals(net).some((key) => {
    if (key === '0' || key.startsWith('chassis:')) return true;
    const at = facts.at(key);
    return at !== null && at.terminal.role === 'ground' && !at.terminal.groundElsewhere;
  });
}

/** Net of a node as a part names it: a terminal, one inside it (`~x`), or one of the vehicle (`@chassis`). */
export function netOfNode(facts: Facts, view: PartView, local: string): number {
  const first = local.charCodeAt(0);
  return first === AT || first === TILDE ? facts.netOf(nodeName(view, local)) : facts.netAt(view.part.id, local);
}

const AT = '@'.charCodeAt(0);
const TILDE = '~'.charCodeAt(0);

/** Net of one terminal of a part. */
export function netAt(facts: Facts, view: PartView, terminal: string): number {
  return facts.netAt(view.part.id, terminal);
}

interface Standing {
  readonly view: PartView;
  readonly terminal: string;
}

const standingOn = once((facts) =>
  memo((net: number): readonly Standing[] =>
    facts.netTerminals(net).flatMap((key): Standing[] => {
      const [id, terminal] = splitKey(key);
      const view = facts.parts.get(id);
      return view ? [{ view, terminal }] : [];
    }),
  ),
);

/** Parts that have a terminal on a net, each with that terminal. */
export function partsOn(facts: Facts, net: number): readonly Standing[] {
  return standingOn(facts)(net);
}

/** Kinds whose contact a person or a signal works: what lies behind is not a rail. */
const SIGNAL_CONTACTS: ReadonlySet<string> = new Set(['push-button', 'master-switch', 'optocoupler', 'low-side-driver']);

/**
 * Nominal volts of a net that is a rail: one with a source on it, or behind fuses, chokes, diodes and relay contacts of
 * such a one. Null for everything else, also for what a button or a switch may join to a rail.
 */
export function railV(facts: Facts, net: number): number | null {
  return rails(facts).get(net) ?? null;
}

const rails = once((facts): ReadonlyMap<number, number> => {
  const map = new Map<number, number>();
  const queue: number[] = [];
  const seed = (net: number, volt: number): void => {
    if (net === -1 || map.has(net) || grounded(facts, net)) return;
    map.set(net, volt);
    queue.push(net);
  };
  const sources = [...facts.parts.values()].flatMap((view) => (view.facts.sources ?? []).map((source) => ({ view, source })));
  const ofVehicle = (kind: string): boolean => kind === 'battery' || kind === 'feed' || kind === 'store';
  for (const { view, source } of sources)
    if (ofVehicle(source.kind)) seed(netAt(facts, view, source.terminal), source.half ? source.nominalV : facts.plan.vehicle.systemV);
  for (let q = 0; q < queue.length; q++) grow(facts, queue[q]!, seed, map.get(queue[q]!)!);
  for (const { view, source } of sources) {
    if (!ofVehicle(source.kind) && source.kind !== 'pin' && source.kind !== 'audio') seed(netAt(facts, view, source.terminal), source.nominalV);
  }
  for (let q = 0; q < queue.length; q++) grow(facts, queue[q]!, seed, map.get(queue[q]!)!);
  return map;
});

function grow(facts: Facts, net: number, seed: (net: number, volt: number) => void, volt: number): void {
  for (const hop of hopsOf(facts).get(net) ?? []) {
    const kind = hop.views[0]!.kind.kind;
    const on =
      hop.link.type === 'fuse' ||
      hop.link.type === 'conductor' ||
      (hop.link.type === 'diode' && hop.forward && (kind === 'diode' || kind === 'reverse-guard')) ||
      (hop.link.type === 'contact' && !SIGNAL_CONTACTS.has(kind));
    if (on) seed(hop.to, volt);
  }
}

/** Does a terminal still hang on another when one wire is taken away, over wires, joints, fuses, contacts and chokes? */
export function joinedWithout(facts: Facts, from: string, to: string, withoutWire: string): boolean {
  const near = new Map<string, string[]>();
  const join = (a: string, b: string): void => {
    gather(near, a, b);
    gather(near, b, a);
  };
  for (const w of Object.values(facts.plan.wires)) if (w.id !== withoutWire) join(`${w.from.part}.${w.from.terminal}`, `${w.to.part}.${w.to.terminal}`);
  for (const view of facts.parts.values()) {
    if (view.facts.sources?.some((s) => s.kind === 'feed')) continue;
    for (const l of view.facts.links ?? []) {
      if (l.type === 'join' || l.type === 'fuse' || l.type === 'contact' || l.type === 'conductor') join(nodeName(view, l.a), nodeName(view, l.b));
    }
  }
  const seen = new Set([from]);
  for (const key of seen) for (const next of near.get(key) ?? []) seen.add(next);
  return seen.has(to);
}
