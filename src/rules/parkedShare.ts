import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { two } from './defineRule.ts';
import { holdInLine } from './holdEdits.ts';
import { endingAt, stopNeedS } from './supplyHold.ts';
import type { Repair } from './types.ts';

/** Was the parked state worked out, so that its draw may be believed? */
export function parkedKnown(facts: Facts): boolean {
  return facts.reading('OFF_ASLEEP', 'typical').status === 'solved';
}

/** Does the build hang on the vehicle at all? */
export function joined(facts: Facts): boolean {
  return Object.values(facts.plan.wires).some(
    (w) =>
      w.owner === 'build' && [w.from, w.to].some((e) => facts.parts.get(e.part)?.facts.tap !== undefined || facts.parts.get(e.part)?.kind.kind === 'battery'),
  );
}

/** What only passes on the current of others. */
const PASSES_ON: ReadonlySet<string> = new Set(['chassis-ground', 'blade-fuse', 'splice', 'terminal-strip', 'connector']);

/** Those who draw while parked, the largest first. */
export function drawers(facts: Facts): readonly { readonly view: PartView; readonly amp: number }[] {
  return facts.analysis.parked.shares.flatMap((s) => {
    const view = facts.parts.get(s.part);
    return view && !PASSES_ON.has(view.kind.kind) ? [{ view, amp: s.amp }] : [];
  });
}

/** Whoever draws less than this share of the whole is not worth a relay. */
const WORTH_CUTTING = 0.2;

/** A hold relay into the permanent feed on which the greatest parked draw hangs with nothing that ever opens. */
export function cutRepairs(facts: Facts): readonly Repair[] {
  const computers = facts.ofKind('computer');
  const need = Math.max(...computers.map(stopNeedS), 0);
  const worth = facts.analysis.parked.buildA * WORTH_CUTTING;
  for (const { view, amp } of drawers(facts)) {
    if (amp < worth || view.kind.kind === 'delay-off-relay') continue;
    for (const load of view.facts.loads ?? []) {
      const ending = endingAt(facts, view, load.plus);
      const feed = ending?.holdS === Number.POSITIVE_INFINITY && ending.feeds.size === 1 ? [...ending.feeds][0] : undefined;
      const repair = feed ? holdInLine(facts, feed, need) : null;
      if (repair) return [repair];
    }
  }
  return [];
}

/** Days as one says them of a battery: nobody knows them closer. */
export function aboutDays(days: number): string {
  if (days < 1) return 'less than a day';
  return `about ${days < 10 ? two(days) : days.toFixed(0)} days`;
}
