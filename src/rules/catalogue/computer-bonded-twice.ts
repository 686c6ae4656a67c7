import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { nodeName } from '../../analysis/graph.ts';
import { listed } from '../../plan/listed.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { BODY, groundJoins, rooter } from '../groundJoins.ts';
import { insulated, shellFlag } from '../shells.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('computer-bonded-twice', 'H2');

export const computerBondedTwice = defineRule({
  id: 'computer-bonded-twice',
  code: 'H2',
  level: 'advice',
  title: 'Computer meets the body at more than one place',
  why: 'Between two places of the body there are always some millivolts, more with every ampere that the vehicle sends home that way. Joined at both, the 0 V of the computer carries part of that current through its thin leads.',
  source: { text: 'Universal practice: one ground point for all electronics that belong together', grade: "fitters' habit" },
  needs: 'graph',
  disputed:
    'Return over the body saves wire and risks rings; a star at the radio’s ground keeps computer and sound on one level; a return to the battery’s own post is quiet but passes a current sensor by. Here one ground point beside the radio is the usual choice.',
  check: (facts) =>
    bonded(facts).map(({ computer, bonds }) => {
      const subject = part(computer.part.id);
      if (bonds.length < 2) return fine(subject);
      const others = bonds.filter((b) => b !== computer);
      const own = others.length < bonds.length ? ['its own case'] : [];
      return found({
        level: 'advice',
        subject,
        related: others.map((b) => part(b.part.id)),
        what: `The 0 V of ${called(computer)} meets the body at ${bonds.length} places: ${listed([...others.map(called), ...own])}.`,
        todo: 'Leave one of them, at the radio or at the converter, and insulate the others.',
        figures: [{ label: 'joined to the body', value: bonds.length, unit: 'times' }],
      });
    }),
  repair: (finding, facts) => {
    const here = bonded(facts).find((b) => b.computer.part.id === finding.subject.id);
    return here ? leaveOne(here.bonds) : [];
  },
});

/** Computers whose 0 V reaches the body, with every part that joins it there; the vehicle's own strap counts once with its battery. */
function bonded(facts: Facts): { computer: PartView; bonds: readonly PartView[] }[] {
  const ties = [...facts.parts.values()].flatMap((view) => {
    // The screen of the radio is a matter of sound leads.
    if (view.kind.kind === 'radio-aux') return [];
    return (view.facts.links ?? [])
      .filter((l) => (l.type === 'conductor' || l.type === 'join') && (l.b === '@chassis' || l.b === '@0'))
      .map((l) => ({ view, node: nodeName(view, l.a) }));
  });
  if (ties.length === 0) return [];
  const joins = groundJoins(facts);
  const body = joins.at(BODY);
  const root = rooter(joins, (j) => j.a !== body && j.b !== body);
  return facts.ofKind('computer').flatMap((computer) => {
    const zero = root(joins.at(`${computer.part.id}.6`));
    const found = ties.filter((t) => root(joins.at(t.node)) === zero).map((t) => t.view);
    const ours = [...new Set(found.filter((v) => v.part.owner === 'build'))];
    const theirs = found.find((v) => v.part.owner === 'vehicle');
    const bonds = theirs ? [theirs, ...ours] : ours;
    return bonds.length === 0 ? [] : [{ computer, bonds }];
  });
}

/** A case or shell is insulated; a ground wire stays. */
function leaveOne(bonds: readonly PartView[]): Repair[] {
  const shells = bonds.filter((b) => shellFlag(b) !== null);
  const kept = shells.length === bonds.length ? shells.slice(1) : shells;
  if (bonds.length - kept.length > 1) return [];
  return kept.length === 1 ? insulated(kept[0]!, true) : [];
}
