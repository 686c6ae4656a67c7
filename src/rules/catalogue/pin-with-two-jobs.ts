import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { Id } from '../../plan/types.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { movePin } from '../movePin.ts';
import { moversOf, type PinUse, pinName, pinUses } from '../pins.ts';

const { fine, found } = verdicts('pin-with-two-jobs', 'E2');

export const pinWithTwoJobs = defineRule({
  id: 'pin-with-two-jobs',
  code: 'E2',
  level: 'fault',
  title: 'One pin, two jobs',
  why: 'When two things pull the same pin low the computer cannot tell which of them it was: a button would look like the key, and the key like a button.',
  source: { text: 'Universal practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    pinUses(facts)
      .filter((use) => moversOf(facts, use).length > 0)
      .map((use) => {
        const movers = moversOf(facts, use);
        const subject = wire(use.wire.id);
        if (!differ(movers)) return fine(subject);
        return found({
          level: 'fault',
          subject,
          related: [part(use.computer.part.id), ...movers.map((m) => part(m.part.id))],
          what: `${movers.map(called).join(' and ')} are both joined to ${pinName(use)}.`,
          todo: movers.every((m) => m.kind.kind === 'push-button')
            ? 'Give each a pin of its own; buttons that are meant to do the same want the same name.'
            : 'Give each a pin of its own.',
        });
      }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    if (!use) return [];
    const movers = moversOf(facts, use);
    const last = movers.at(-1);
    if (!last || differ(movers.slice(0, -1))) return [];
    const wires = wiresTowards(facts, use, last);
    const move = wires.length > 0 && wires.length < use.wires.length ? movePin(facts, use, new Set(wires)) : null;
    return move ? [{ ...move, title: move.title.replace('it', called(last)) }] : [];
  },
});

/** Buttons that bear the same name do the same job on purpose. */
function differ(movers: readonly PartView[]): boolean {
  if (movers.length < 2) return false;
  const first = movers[0]!;
  const named = movers.every((m) => m.kind.kind === 'push-button' && m.part.name !== undefined && m.part.name === first.part.name);
  return !named;
}

/** Wires on the cell behind which this part lies and none of the others. */
function wiresTowards(facts: Facts, use: PinUse, mover: PartView): Id[] {
  const others = moversOf(facts, use).filter((m) => m !== mover);
  const behind = use.wires.map((w) => ({ id: w.id, parts: partsBehind(facts, use, w.id) }));
  return behind.filter((b) => b.parts.has(mover.part.id) && !others.some((o) => b.parts.has(o.part.id))).map((b) => b.id);
}

/** Parts that hang on one wire of a cell through wires and resistors, the computer left out. */
function partsBehind(facts: Facts, use: PinUse, wireId: Id): ReadonlySet<Id> {
  const computer = use.computer.part.id;
  const first = facts.plan.wires[wireId]!;
  const seen = new Set<Id>();
  const queue = [first.from.part === computer ? first.to : first.from];
  for (let q = 0; q < queue.length; q++) {
    const at = queue[q]!;
    if (at.part === computer) continue;
    const here = facts.parts.get(at.part);
    const passes = here?.kind.kind === 'resistor' || here?.kind.kind === 'splice';
    if (seen.has(at.part)) continue;
    seen.add(at.part);
    for (const w of Object.values(facts.plan.wires)) {
      for (const [near, far] of [
        [w.from, w.to],
        [w.to, w.from],
      ] as const) {
        if (near.part === at.part && (passes || near.terminal === at.terminal) && w.id !== wireId) queue.push(far);
      }
    }
  }
  return seen;
}
