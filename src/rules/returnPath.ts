import type { Facts, PartView, TerminalKey } from '../analysis/factsTypes.ts';
import { endKey, wiresAt } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import type { Id, Wire } from '../plan/types.ts';
import { end, farEnd, groundEnd, movedEnd, sameEnd } from './build.ts';
import type { LedCircuit } from './sensing.ts';
import { netAt } from './trace.ts';
import type { Repair } from './types.ts';

/** Where a ground wire has come home: what lies beyond is the vehicle's. */
const HOME: ReadonlySet<string> = new Set(['chassis-ground', 'battery']);

/** One terminal on a ground's way: the first and the last wire to it, and the terminal before. */
interface Stop {
  readonly first: Wire | null;
  readonly last: Wire | null;
  readonly over: Wire | null;
  readonly before: TerminalKey | null;
}

/** Terminals that wires and joints lead to from one terminal before the body. */
export interface Landing {
  readonly at: ReadonlyMap<TerminalKey, Stop>;
  /** Where it comes home first, with the wires there in order; null when it does not. */
  readonly home: { readonly key: TerminalKey; readonly wires: readonly Wire[] } | null;
}

/** Where an LED's return leads home from by wires and joints alone: its cathode, or what stands last in its return. */
export function returnEnd(facts: Facts, led: PartView, cathode: string, circuit: LedCircuit | null): { readonly view: PartView; readonly terminal: string } {
  const last = circuit?.back.at(-1);
  const view = last?.views[0];
  const terminal = view?.terminals.find((t) => netAt(facts, view, t.id) === last?.to);
  return view && terminal ? { view, terminal: terminal.id } : { view: led, terminal: cathode };
}

/** Walks from a terminal along wires and through joints of parts, up to where the body begins. */
export function landing(facts: Facts, view: PartView, terminal: string): Landing {
  const start: TerminalKey = `${view.part.id}.${terminal}`;
  const at = new Map<TerminalKey, Stop>([[start, { first: null, last: null, over: null, before: null }]]);
  let home: TerminalKey | null = null;
  const wires = wiresAt(facts.plan).byTerminal;
  for (const [key, here] of at) {
    const there = facts.at(key);
    if (!there) continue;
    if (HOME.has(there.view.kind.kind) && key !== start) {
      home ??= key;
      continue;
    }
    for (const w of wires.get(key) ?? []) {
      const to = endKey(w.from) === key ? endKey(w.to) : endKey(w.from);
      if (!at.has(to)) at.set(to, { first: here.first ?? w, last: w, over: w, before: key });
    }
    for (const l of there.view.facts.links ?? []) {
      if (l.type !== 'join' || there.view === view) continue;
      const id = there.view.part.id;
      const to = `${id}.${l.a}` === key ? `${id}.${l.b}` : `${id}.${l.b}` === key ? `${id}.${l.a}` : null;
      if (to !== null && !at.has(to)) at.set(to, { ...here, over: null, before: key });
    }
  }
  return { at, home: home === null ? null : { key: home, wires: wiresTo(at, home) } };
}

function wiresTo(at: ReadonlyMap<TerminalKey, Stop>, key: TerminalKey): Wire[] {
  const way: Wire[] = [];
  for (let stop = at.get(key); stop; stop = stop.before === null ? undefined : at.get(stop.before)) if (stop.over) way.push(stop.over);
  return way.reverse();
}

/** Takes the wire by which a sensing LED's return joins another ground to a chassis ground of its own, near the zone of what is sensed. */
export function ownReturn(facts: Facts, view: PartView, terminal: string, first: Wire | null, zone: Id): Repair[] {
  if (!first) return [];
  const id: Id = view.part.id;
  const near = end(id, terminal);
  // What stands across the LED stays where it is.
  const other = farEnd(first, id);
  if (![first.from, first.to].some((e) => sameEnd(e, near)) || facts.parts.get(other.part)?.kind.kind === 'diode') return [];
  return [
    {
      title: 'Give the LED’s return a wire of its own to the body',
      safe: true,
      edit: (plan) => {
        const row = plan.wires[first.id];
        const ground = groundEnd(plan, zone);
        if (!row || !ground || plan.parts[ground.part]?.kind !== 'chassis-ground') return null;
        const draft = new Draft(plan);
        draft.setWire(movedEnd(row, farEnd(row, id), ground));
        return draft.edit('repair.apply', 'Own return for the LED');
      },
    },
  ];
}
