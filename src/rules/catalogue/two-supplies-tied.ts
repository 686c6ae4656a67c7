import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { removeWire } from '../fixes.ts';
import { closableReach } from '../rails.ts';
import { along, type Tap, taps } from '../taps.ts';

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
    if (!tap || !one || joining.length !== 1) return [];
    return [removeWire(one.id, `Take ${called(tap.view)} off the join`)];
  },
});

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
