import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { gather } from '../../plan/gather.ts';
import { called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('plugs-that-fit', 'B12');
/** Further apart than this, what is on a cavity is not the same thing. */
const APART_V = 1;

export const plugsThatFit = defineRule({
  id: 'plugs-that-fit',
  code: 'B12',
  level: 'hazard',
  title: 'Two plugs that fit each other and must never meet',
  why: 'What can be plugged in wrongly will be, in the dark and in a hurry. Two equal plugs, one with 12 V and one with 5 V, need one mistake to end the computer.',
  source: { text: 'Universal practice: different families, coding or ways for different voltages', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => groups(facts).flatMap((g) => judge(facts, g)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const family = view?.s.str('family').trim();
    return view && family ? [typing(view.part.id, { family: `${family}, coded`.slice(0, 60) }, 'Take it in another coding', false)] : [];
  },
});

/** Connectors of one zone with as many ways. */
function groups(facts: Facts): PartView[][] {
  const map = new Map<string, PartView[]>();
  for (const view of facts.ofKind('connector')) {
    gather(map, `${view.part.zone}|${view.terminals.length}`, view);
  }
  return [...map.values()];
}

function judge(facts: Facts, group: readonly PartView[]): Verdict[] {
  return group.map((view, i) => {
    const subject = part(view.part.id);
    const mine = familyOf(view);
    const earlier = group.slice(0, i);
    // Two that are known to fit come first: a plug of no known family must not hide them.
    for (const other of earlier.filter((o) => mine !== '' && familyOf(o) === mine)) {
      const clash = clashing(facts, view, other);
      if (!clash) continue;
      return found({
        level: 'hazard',
        subject,
        related: [part(other.part.id)],
        what: `${called(view)} and ${called(other)} fit each other, and cavity ${clash.way} has ${volts(clash.mineV)} in one and ${volts(clash.itsV)} in the other.`,
        todo: 'Take another family or another coding for one of them; a coloured ring alone does not stop a hand.',
      });
    }
    const open = earlier.find((o) => (mine === '' || familyOf(o) === '') && clashing(facts, view, o) !== null);
    return open ? unknown(subject, `of which family ${called(view)} and ${called(open)} are: they have as many ways and carry different volts`) : fine(subject);
  });
}

function familyOf(view: PartView): string {
  return view.s.str('family').trim().toLowerCase();
}

/** The first cavity that carries different volts in two connectors; a joined ground is 0 V. */
function clashing(facts: Facts, a: PartView, b: PartView): { readonly way: number; readonly mineV: number; readonly itsV: number } | null {
  const ways = Math.floor(a.terminals.length / 2);
  for (let way = 1; way <= ways; way++) {
    const [mineV, itsV] = [cavityV(facts, a, way), cavityV(facts, b, way)];
    if (mineV !== null && itsV !== null && Math.abs(mineV - itsV) > APART_V) return { way, mineV, itsV };
  }
  return null;
}

function cavityV(facts: Facts, view: PartView, way: number): number | null {
  for (const half of ['a', 'b']) {
    const key = `${half}${way}`;
    const v = facts.isWired(`${view.part.id}.${key}`) ? facts.nominalV(netAt(facts, view, key)) : null;
    if (v !== null) return v;
  }
  return null;
}
