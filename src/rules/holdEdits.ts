import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { partSets, setPartSettings } from '../parts/index.ts';
import { Draft } from '../plan/draft.ts';
import type { End, Id, Part, Plan, Values, Wire } from '../plan/types.ts';
import { beside, end, farEnd, groundEnd, movedEnd, newPart, newWire, onlyWire } from './build.ts';
import { called } from './defineRule.ts';
import { fusedLine, fusedLines, keyFeeds } from './keyLine.ts';
import { FUSE_AT_M } from './taps.ts';
import { grounded, type Hop, netAt, waysFrom } from './trace.ts';
import type { Repair } from './types.ts';

/** Longest hold that a hold relay can be set to, s, and the steps in which one sets it. */
const STEP_S = 10;

/** Time to set so that even the shortest hold is long enough, s. */
export function holdFor(needS: number, tol: number): number {
  return Math.ceil(needS / (1 - tol) / STEP_S) * STEP_S;
}

/** The wire behind the fuse over which alone a feed supplies converters or computers, when there is one alone. */
function behindFuse(facts: Facts, feed: PartView): { wire: Wire; fused: End } | null {
  for (const fused of fusedLines(facts, feed)) {
    const wire = onlyWire(facts.plan, fused.part, fused.terminal);
    const behind = facts.netOf(`${fused.part}.${fused.terminal}`);
    if (wire && supplies(facts, behind, fused.part) && !supplies(facts, netAt(facts, feed, 'out'), fused.part)) return { wire, fused };
  }
  return null;
}

const CARRIES: ReadonlySet<string> = new Set(['fuse', 'contact', 'conductor']);

/** Does current from this net come to a converter's input or a computer, other than through a certain fuse? */
function supplies(facts: Facts, start: number, without: Id): boolean {
  const on = (h: Hop): boolean => h.views[0]!.part.id !== without && (CARRIES.has(h.link.type) || (h.link.type === 'diode' && h.forward));
  const reached = waysFrom(facts, start, on, (net) => grounded(facts, net));
  return [...facts.parts.values()].some(
    (view) =>
      (view.kind.kind === 'computer' || view.facts.sources?.some((s) => s.kind === 'converter')) &&
      (view.facts.loads ?? []).some((load) => reached.has(netAt(facts, view, load.plus))),
  );
}

/**
 * For a supply that falls with the key: the falling line becomes the trigger of a hold relay, which takes the supply from a
 * permanent feed with a fuse of its own. Null when the feed has no fuse or branches right behind it.
 */
export function holdInstead(facts: Facts, feed: PartView, needS: number): Repair | null {
  const spot = behindFuse(facts, feed);
  if (!spot) return null;
  const permanent = facts.ofKind('feed-30')[0];
  return {
    title: permanent ? `Hold the supply from ${called(permanent)} with a relay` : 'Hold the supply from permanent 30 with a relay',
    safe: false,
    edit: (plan) => {
      const feedRow = plan.parts[feed.part.id];
      const wire = plan.wires[spot.wire.id];
      const load = wire && plan.parts[farEnd(wire, spot.fused.part).part];
      if (!feedRow || !wire || !load) return null;
      const draft = new Draft(plan);
      const relay = addRelay(draft, load, needS);
      const supply = relay && addFused(draft, permanent ? permanent.part.id : newFeed(draft, 'feed-30', feedRow), 'Supply fuse', {});
      if (!relay || !supply) return null;
      draft.setWire(movedEnd(wire, spot.fused, end(relay, '87')));
      newWire(draft, supply, end(relay, '30'));
      newWire(draft, spot.fused, end(relay, '15'));
      return draft.edit('repair.apply', 'Add a hold relay');
    },
  };
}

/**
 * For a supply that never falls: a hold relay into it behind the first fuse, triggered by a line that falls with the key
 * (one of the plan's, else a new ignition feed). Null when the feed has no fuse or branches right behind it.
 */
export function holdInLine(facts: Facts, feed: PartView, needS: number): Repair | null {
  const spot = behindFuse(facts, feed);
  if (!spot) return null;
  const key = keyFeeds(facts)[0];
  const ready = key ? fusedLine(facts, key) : null;
  return {
    title: `Put a hold relay behind ${called(feed)}, triggered by ${key ? called(key) : 'ignition 15'}`,
    safe: false,
    edit: (plan) => {
      const feedRow = plan.parts[feed.part.id];
      const wire = plan.wires[spot.wire.id];
      const load = wire && farEnd(wire, spot.fused.part);
      const loadRow = load && plan.parts[load.part];
      if (!feedRow || !wire || !load || !loadRow) return null;
      const draft = new Draft(plan);
      const relay = addRelay(draft, loadRow, needS);
      const trigger = relay && (ready ?? addFused(draft, key ? key.part.id : newFeed(draft, 'feed-15', feedRow), 'Trigger fuse', { ratingA: 1 }));
      if (!relay || !trigger) return null;
      draft.setWire(movedEnd(wire, load, end(relay, '30'), true));
      newWire(draft, end(relay, '87'), load);
      newWire(draft, trigger, end(relay, '15'));
      return draft.edit('repair.apply', 'Add a hold relay');
    },
  };
}

/** A hold relay beside a part, with its ground; null when the plan has no ground for it. */
function addRelay(draft: Draft, load: Part, needS: number): Id | null {
  const ground = groundEnd(draft.plan, load.zone);
  if (!ground) return null;
  const usual = holdSettings(draft.plan);
  const holdS = holdFor(needS, 0.1);
  const settings = holdS > 90 ? { ...usual, holdS } : usual;
  const relay = newPart(draft, { kind: 'delay-off-relay', ...beside(load, -180, 0), name: 'Hold relay', settings });
  newWire(draft, end(relay, '31'), ground);
  return relay;
}

/** What the ready-made hold relay comes with in this vehicle. */
function holdSettings(plan: Plan): Values {
  const part = partSets.get('hold-relay')?.parts.find((p) => p.kind === 'delay-off-relay');
  return part ? setPartSettings(part, plan.vehicle.systemV) : {};
}

/** A feed of the vehicle beside a part, not measured yet. */
export function newFeed(draft: Draft, kind: string, near: Part): Id {
  return newPart(draft, { kind, ...beside(near, 0, 120), owner: 'vehicle' });
}

/** A fuse within a hand's width of a feed; its far side. */
export function addFused(draft: Draft, feed: Id, name: string, settings: Values): End | null {
  const row = draft.part(feed);
  if (!row) return null;
  const class58: Values = draft.plan.vehicle.systemV === 24 ? { voltClass: '58' } : {};
  const fuse = newPart(draft, { kind: 'blade-fuse', ...beside(row, 150, 10), name, settings: { ...settings, ...class58 } });
  newWire(draft, end(feed, 'out'), end(fuse, '1'), { lengthM: FUSE_AT_M });
  return end(fuse, '2');
}
