import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { nodeName } from '../analysis/graph.ts';
import { terminalKey, wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import type { End, Id, Wire } from '../plan/types.ts';
import { end, farEnd, movedEnd, newWire, onlyWire, sameEnd, type } from './build.ts';
import { called } from './defineRule.ts';
import { type Held, heldComputers } from './holders.ts';
import { fuseEnds } from './keyLine.ts';
import { keySenses } from './keySense.ts';
import { lineEnd } from './resense.ts';
import { endingAt, stopNeedS } from './supplyHold.ts';
import type { Repair } from './types.ts';

/** A contact for milliamperes, as the kind's own variant has it. */
const LOW_LEVEL = { contact: 'gold', dcA: 3, minA: 0.001 };

/** Where a switch speaks of the key to all that listen: the far side of a fuse, and the wires that leave it for them. */
interface Spot {
  readonly fuse: PartView;
  readonly fused: End;
  readonly wires: readonly Wire[];
}

/**
 * Takes a switch out of the supply of one computer and puts it behind the fuse from which the key sensor and the trigger of
 * what holds the supply get their line: off then reads as key-off, and the power goes after the stop. Empty where one contact
 * cannot do that, where the hold is too short for the stop, or where something else would go on for ever without the switch.
 */
export function switchIntoKeyLine(facts: Facts, cut: PartView): Repair[] {
  const held = onlyHeld(facts, cut);
  const supply = held && { in: onlyWire(facts.plan, cut.part.id, '1'), out: onlyWire(facts.plan, cut.part.id, '2') };
  const spot = held && spotFor(facts, held);
  if (!supply?.in || !supply.out || !spot || spot.wires.some((w) => w.id === supply.in?.id || w.id === supply.out?.id)) return [];
  const wires = { in: supply.in.id, out: supply.out.id };
  return [
    {
      title: `Move ${called(cut)} into the key’s line behind ${called(spot.fuse)}, with gold contacts`,
      safe: false,
      edit: (plan) => {
        const through = { in: plan.wires[wires.in], out: plan.wires[wires.out] };
        const rows = spot.wires.map((w) => plan.wires[w.id]);
        const bridged = through.in && through.out && mended(through.in, through.out, cut.part.id);
        const fuse = plan.parts[spot.fuse.part.id];
        const row = plan.parts[cut.part.id];
        if (!bridged || !fuse || !row || rows.some((w) => w === undefined)) return null;
        const draft = new Draft(plan);
        draft.setWire(bridged);
        draft.removeWire(wires.out);
        // A length from the fuse still holds where the switch sits beside it.
        for (const w of rows) draft.setWire(movedEnd(w!, spot.fused, end(row.id, '2'), fuse.zone === row.zone));
        newWire(draft, spot.fused, end(row.id, '1'));
        type(draft, row.id, LOW_LEVEL);
        return draft.edit('repair.apply', 'Move the switch into the key’s line');
      },
    },
  ];
}

/** The one computer that hangs on a switch; null when there are several, or when anything there would never fall without it. */
function onlyHeld(facts: Facts, cut: PartView): Held | null {
  const all = heldComputers(facts).filter((h) => h.contacts.has(cut));
  const [held] = all;
  if (!held || all.length > 1) return null;
  const switches = [...held.contacts].filter((v) => v.kind.kind === 'master-switch');
  const forEver = facts.loads.some(({ view, load }) => {
    // What holds the supply must itself stay on it, as in every build.
    if (held.contacts.has(view)) return false;
    const ending = endingAt(facts, view, load.plus);
    return ending?.contacts.has(cut) && ending.holdS === Number.POSITIVE_INFINITY;
  });
  const lasts = held.ending.holdS >= stopNeedS(held.computer);
  return switches.length === 1 && lasts && !forEver ? held : null;
}

/** What decides how long the supply lasts, with the terminals at which it listens to the key. */
const TRIGGERS: Readonly<Record<string, readonly string[]>> = { 'delay-off-relay': ['15'], 'hold-latch': ['set', 'set2'] };

/** The fuse of the sensed line behind which one contact breaks the way to the key sensor and to every trigger, and to nothing else. */
function spotFor(facts: Facts, held: Held): Spot | null {
  const sense = keySenses(facts).find((k) => k.computer === held.computer);
  const sensed = sense?.sensor && lineEnd(facts, sense.sensor);
  const triggers = [...held.contacts].flatMap((v) => (TRIGGERS[v.kind.kind] ?? []).filter((t) => endingAt(facts, v, t)).map((t) => end(v.part.id, t)));
  if (!sense?.feed || !sensed || triggers.length === 0) return null;
  const { feed } = sense;
  const ends = [sensed, ...triggers];
  // Another feed on one of them would speak on when the switch is off.
  if (ends.some((e) => others(facts, e, feed))) return null;
  for (const fused of fuseEnds(facts, feed)) {
    const branches = wiresOn(facts.plan, fused.part, fused.terminal).map((wire) => ({ wire, keys: behind(facts, wire, fused) }));
    const told = branches.filter((b) => ends.some((e) => b.keys.has(terminalKey(e.part, e.terminal))));
    const all = ends.every((e) => told.some((b) => b.keys.has(terminalKey(e.part, e.terminal))));
    const more = told.some((b) => feedsMore(facts, b.keys));
    const fuse = facts.parts.get(fused.part);
    if (all && !more && fuse) return { fuse, fused, wires: told.map((b) => b.wire) };
  }
  return null;
}

/** Does anything else than a trigger live on these terminals, or go on over a contact? */
function feedsMore(facts: Facts, keys: ReadonlySet<string>): boolean {
  return (
    facts.loads.some(({ view, load }) => load.label !== 'trigger' && keys.has(`${view.part.id}.${load.plus}`)) ||
    [...facts.parts.values()].some((v) => v.facts.links?.some((l) => l.type === 'contact' && [l.a, l.b].some((t) => keys.has(nodeName(v, t)))))
  );
}

function others(facts: Facts, { part, terminal }: End, feed: PartView): boolean {
  const view = facts.parts.get(part)!;
  return [...(endingAt(facts, view, terminal)?.feeds ?? [])].some((f) => f !== feed);
}

const ON: ReadonlySet<string> = new Set(['join', 'conductor', 'fuse']);

/** Terminals that a wire leads to from one of its ends, over other wires, plugs and joints, but not back over that end. */
function behind(facts: Facts, wire: Wire, from: End): ReadonlySet<string> {
  const start = farEnd(wire, from.part);
  const found = new Set([terminalKey(start.part, start.terminal)]);
  for (const key of found) {
    const at = facts.at(key);
    if (!at || at.view.part.id === from.part) continue;
    for (const w of wiresOn(facts.plan, at.view.part.id, at.terminal.id)) for (const e of [w.from, w.to]) found.add(terminalKey(e.part, e.terminal));
    for (const link of at.view.facts.links ?? []) {
      if (!ON.has(link.type)) continue;
      const [a, b] = [nodeName(at.view, link.a), nodeName(at.view, link.b)];
      if (a === key) found.add(b);
      else if (b === key) found.add(a);
    }
  }
  return found;
}

/** Two wires that meet at a part as one past it; null when they would end where they begin. Typed lengths add up, of two sizes the larger counts. */
function mended(one: Wire, other: Wire, over: Id): Wire | null {
  const near = one.from.part === over ? one.from : one.to;
  const to = farEnd(other, over);
  if (sameEnd(farEnd(one, over), to)) return null;
  const { areaMm2, ...row } = movedEnd(one, near, to);
  const sizes = [areaMm2, other.areaMm2].filter((a) => a !== undefined);
  return {
    ...row,
    ...(sizes.length > 0 ? { areaMm2: Math.max(...sizes) } : {}),
    ...(one.lengthM !== undefined && other.lengthM !== undefined ? { lengthM: Math.round(1000 * (one.lengthM + other.lengthM)) / 1000 } : {}),
  };
}
