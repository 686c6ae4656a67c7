import type { Facts, PartView, Step, TerminalKey } from '../analysis/factsTypes.ts';
import type { SourceFact } from '../parts/types.ts';
import { wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import type { Edit, Plan, Wire } from '../plan/types.ts';
import { splitWire } from '../plan/wireEdits.ts';
import { once } from './once.ts';

/** A place where the vehicle's (or a store's) current can enter our wiring with nothing of ours ahead of it. */
export interface Tap {
  readonly view: PartView;
  readonly key: TerminalKey;
  readonly source: SourceFact;
}

/** Every feed, battery post and energy store that one of our wires is joined to. */
export const taps = once((facts): readonly Tap[] => {
  const list: Tap[] = [];
  const batteries = facts.ofKind('battery').length;
  for (const view of facts.parts.values()) {
    for (const source of view.facts.sources ?? []) {
      if (source.kind !== 'battery' && source.kind !== 'feed' && source.kind !== 'store') continue;
      const key = `${view.part.id}.${source.terminal}`;
      // Posts drawn apart are one battery: the one that our wire ends on speaks.
      if (source.kind === 'battery' && !wiresOn(facts.plan, view.part.id, source.terminal).some((w) => w.owner === 'build') && batteries > 1) continue;
      if (facts.netWires(facts.netOf(key)).some((w) => w.owner === 'build')) list.push({ view, key, source });
    }
  }
  return list;
});

/** What volts of the vehicle come to at a tap: half of them at one between the two batteries of a pair. */
export function atTap(facts: Facts, { source }: Tap, volt: number): number {
  return source.half ? (volt * source.nominalV) / facts.plan.vehicle.systemV : volt;
}

/** What a tap reaches with no fuse and no resistor between: terminals and the way to them. */
export function unfusedReach(facts: Facts, tap: Tap): ReadonlyMap<TerminalKey, readonly Step[]> {
  return facts.reach(tap.key, ['contact', 'conductor', 'diode']);
}

/** Conductor length along a way, m, and its wires. */
export function along(facts: Facts, steps: readonly Step[]): { lengthM: number; wires: Wire[] } {
  const wires = steps.map((s) => s.wire).filter((w): w is Wire => w !== null && w.owner === 'build');
  return { wires, lengthM: wires.reduce((sum, w) => sum + facts.wireLengthM(w.id), 0) };
}

/** A shunt from supply to ground: clamp, capacitor, or a diode that stands across. */
export function isShunt(view: PartView): boolean {
  return view.kind.kind === 'surge-clamp' || view.kind.kind === 'capacitor' || view.kind.kind === 'diode';
}

/** Is the vehicle's own fuse known to be ahead, and no bigger than what the wire carries? */
export function donorProtects(tap: Tap, limitA: number): boolean {
  return tap.source.donorFuseRead === true && (tap.source.donorFuseA ?? Number.POSITIVE_INFINITY) <= limitA;
}

/** Where to put a fuse: a hand's width from the tap. */
export const FUSE_AT_M = 0.1;

/**
 * Cuts a blade fuse (rating automatic) into our first wire at a tap, 0.1 m from it.
 * @returns the edit and the fuse's id; null when no wire of ours starts there.
 */
export function fuseAtTap(plan: Plan, tap: Tap, wireId: string, lengthM: number): { readonly edit: Edit; readonly fuse: string } | null {
  const wire = plan.wires[wireId];
  const part = plan.parts[tap.view.part.id];
  if (!wire || !part) return null;
  const forward = wire.from.part === part.id;
  const fuse = { kind: 'blade-fuse', zone: part.zone, x: part.x + 150, y: part.y + 10, name: 'Fuse at the tap' };
  const typed = wire.lengthM === undefined ? { ...plan, wires: { ...plan.wires, [wireId]: { ...wire, lengthM } } } : plan;
  const cut = forward ? splitWire(typed, wireId, fuse, '1', '2', FUSE_AT_M) : splitWire(typed, wireId, fuse, '2', '1', Math.max(0.05, lengthM - FUSE_AT_M));
  // The edit was made against typed lengths; its "before" must be the plan's own row.
  const changes = cut.edit.changes.map((c) => (c.table === 'wires' && c.id === wireId ? { ...c, before: wire } : c));
  return { edit: { ...cut.edit, changes }, fuse: cut.id };
}

/** An edit that changes rows of wires or parts. */
export function change(plan: Plan, intent: string, label: string, fill: (draft: Draft) => void): Edit {
  const draft = new Draft(plan);
  fill(draft);
  return draft.edit(intent, label);
}
