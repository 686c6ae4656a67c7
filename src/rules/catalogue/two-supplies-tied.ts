import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import type { Plan, Wire } from '../../plan/types.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { beside, farEnd, onlyWire } from '../build.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { inTurn, removeWire } from '../fixes.ts';
import { closableReach } from '../rails.ts';
import { along, type Tap, taps } from '../taps.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('two-supplies-tied', 'A9');

export const twoSuppliesTied = defineRule({
  id: 'two-supplies-tied',
  code: 'A9',
  level: 'hazard',
  title: 'Two supplies tied together',
  why: 'One lead now feeds the other: accessories stay awake with the key out, and a fault is fed through both fuses at once, so that neither protects.',
  source: { text: 'Universal fitting practice', grade: "fitters' habit" },
  needs: 'graph',
  explains: ['vehicle-line-kept-up'],
  always: true,
  check: (facts) => {
    // A store is there to be charged by the supply that it hangs on.
    const all = taps(facts).filter((t) => t.source.kind !== 'store');
    if (all.length < 2) return [];
    return all.map((tap) => {
      const reached = closableReach(facts, tap.key, ['fuse', 'contact', 'conductor']);
      const tied = all
        .filter((other) => other !== tap && other.view.part.id > tap.view.part.id)
        .flatMap((other) => {
          const steps = reached.get(other.key);
          return steps ? [{ other, steps }] : [];
        });
      const first = tied[0];
      const back = first ? null : fedBackwards(facts, tap, all);
      if (back) {
        return found({
          level: 'hazard',
          subject: part(tap.view.part.id),
          related: [part(back.other.view.part.id), ...along(facts, back.steps).wires.map((w) => wire(w.id))],
          what: `${called(tap.view)} feeds ${called(back.other.view)} backwards over ${called(back.over)}: with the key out all that hangs on that line of the vehicle stays on, through our fuses.`,
          todo: 'Put a diode into each of the two, both towards what they feed, or a changeover relay that picks one.',
          data: { other: back.other.view.part.id },
        });
      }
      if (!first) return fine(part(tap.view.part.id));
      const wires = along(facts, first.steps).wires;
      return found({
        level: 'hazard',
        subject: part(tap.view.part.id),
        related: [part(first.other.view.part.id), ...wires.map((w) => wire(w.id))],
        what: `${called(tap.view)} and ${called(first.other.view)} meet with no diode and no changeover contact between them${first.steps.some((s) => s.linkType === 'fuse') ? ', after their fuses' : ''}.`,
        todo: 'Feed from one of them; or put a diode in each (rated twice the current and 60 V or more), or a changeover relay that picks one.',
        data: { other: first.other.view.part.id },
      });
    });
  },
  repair: (finding, facts) => {
    const others = [finding.subject.id, String(finding.data?.other ?? '')];
    const tap = taps(facts).find((t) => t.view.part.id === pickWeaker(facts, others));
    const joining = tap ? facts.netWires(facts.netOf(tap.key)).filter((w) => w.owner === 'build' && [w.from.part, w.to.part].includes(tap.view.part.id)) : [];
    const one = joining[0];
    const off = tap && one && joining.length === 1 ? [removeWire(one.id, `Take ${called(tap.view)} off the join`)] : [];
    return [...off, ...diodes(facts, others)];
  },
});

/** What a series diode stands and drops that needs no clamp ahead in a 12 V vehicle (a semiconductor maker's note, read). */
const DIODE = { type: 'schottky', dropV: 0.85, ratedA: 5, reverseV: 200 } as const;

/** A diode into each of two supplies, behind its fuse; where each has a wire of its own there and the current is no more than half of what a diode is made for. */
function diodes(facts: Facts, ids: readonly string[]): Repair[] {
  const wires = ids.map((id) => ownWire(facts, id));
  const [one, two] = wires;
  if (facts.plan.vehicle.systemV !== 12 || !one || !two || one.wire.id === two.wire.id) return [];
  if (wires.some((w) => 2 * (facts.analysis.wires[w!.wire.id]?.heatA ?? 0) > DIODE.ratedA)) return [];
  // Where one has its diode, only the other lacks it.
  const bare = [one, two].filter((w) => facts.parts.get(farEnd(w.wire, w.near).part)?.kind.kind !== 'diode');
  const lone = bare.length === 1 ? facts.parts.get(bare[0]!.near) : undefined;
  const title = lone ? `Put a series diode behind ${called(lone)} as well` : 'Put a series diode into each of the two';
  const steps = bare.map(({ wire: w, near }) => (plan: Plan) => {
    const row = plan.wires[w.id];
    const part = plan.parts[near];
    if (!row || !part) return null;
    const forward = row.from.part === near;
    const guard = { kind: 'reverse-guard', ...beside(part, 160, 20), settings: { ...DIODE } };
    return splitWire(plan, row.id, guard, forward ? 'in' : 'out', forward ? 'out' : 'in').edit;
  });
  return [{ title, safe: false, edit: (plan) => inTurn(plan, 'repair.apply', title, steps) }];
}

/** The wire by which a supply goes on behind its fuse, or straight from its tap, with the part at its near end. */
function ownWire(facts: Facts, id: string): { readonly wire: Wire; readonly near: string } | null {
  const tap = taps(facts).find((t) => t.view.part.id === id);
  const first = tap && onlyWire(facts.plan, id, tap.source.terminal);
  if (!first) return null;
  const far = farEnd(first, id);
  if (facts.parts.get(far.part)?.kind.kind !== 'blade-fuse') return { wire: first, near: id };
  const next = onlyWire(facts.plan, far.part, far.terminal === '1' ? '2' : '1');
  return next && { wire: next, near: far.part };
}

/** A line that falls with the key, which a constant supply reaches through diodes: they let current pass to it, and none of its own bars the way. */
function fedBackwards(facts: Facts, tap: Tap, all: readonly Tap[]): { readonly other: Tap; readonly steps: readonly Step[]; readonly over: PartView } | null {
  if ((tap.source.line ?? '30') !== '30') return null;
  const reached = closableReach(facts, tap.key, ['fuse', 'contact', 'conductor', 'diode']);
  for (const other of all) {
    const steps = (other.source.line ?? '30') === '30' ? undefined : reached.get(other.key);
    const over = steps?.find((s) => s.linkType === 'diode')?.through;
    if (steps && over) return { other, steps, over };
  }
  return null;
}

/** The one to take off: not the constant supply, which a hold circuit needs. */
function pickWeaker(facts: Facts, ids: readonly string[]): string | undefined {
  const line = (id: string): Tap['source']['line'] => facts.parts.get(id)?.facts.tap?.line;
  return ids.find((id) => line(id) !== '30') ?? ids[1];
}
