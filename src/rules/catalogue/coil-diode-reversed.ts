import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { positiveSide } from '../coilDriver.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { turnRound } from '../fixes.ts';
import { vehicleRail } from '../rails.ts';
import { grounded, netAt } from '../trace.ts';
import type { Subject, Verdict } from '../types.ts';

const { fine, found } = verdicts('coil-diode-reversed', 'J8');

export const coilDiodeReversed = defineRule({
  id: 'coil-diode-reversed',
  code: 'J8',
  level: 'hazard',
  title: 'Diode across a coil is the wrong way round',
  why: 'A diode across a coil sleeps while the coil is fed and wakes when it lets go. The other way round it conducts as soon as the coil is switched on: a short, right through whatever switches it.',
  source: { text: 'Relay makers’ sheets: 86 is the positive side where a diode is built in; the ring of a diode is its cathode', grade: 'data sheet' },
  needs: 'readings',
  always: true,
  explains: ['wire-overloaded', 'short-would-not-blow', 'wire-fuse-too-big', 'return-too-thin', 'coil-on-while-parked'],
  check: (facts) => facts.ofKind('relay').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    return [view.kind.kind === 'diode' ? turnRound(view, 'A', 'K', `Turn ${view.item} round`) : turnRound(view, '86', '85', 'Swap the wires at 86 and 85')];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  if (!facts.isWired(`${view.part.id}.86`) || !facts.isWired(`${view.part.id}.85`)) return [];
  const plus = positiveSide(facts, view);
  if (plus === null) return [];
  const minus = plus === '86' ? '85' : '86';
  const own = view.s.str('suppression') === 'diode';
  const outside = outsideDiodes(facts, netAt(facts, view, plus), netAt(facts, view, minus));
  if (!own && outside.length === 0) return [];
  const bad: Verdict[] = outside
    .filter((d) => !d.right)
    .map((d) =>
      found({
        level: 'hazard',
        subject: part(d.view.part.id),
        related: [part(view.part.id)],
        what: `${called(d.view)} across the coil of ${called(view)} has its ring (cathode) at ${minus}, the negative side: it conducts at once, and whatever switches the coil feeds a short.`,
        todo: `Turn it round, its ring at ${plus}.`,
      }),
    );
  if (own && plus === '85') {
    bad.push(
      found({
        level: 'hazard',
        subject: part(view.part.id),
        what: `${called(view)} has a diode inside that wants plus at 86, and its plus comes at 85: the diode conducts at once, and whatever switches the coil feeds a short.`,
        todo: 'Swap the wires at 86 and 85.',
        ...(grounded(facts, netAt(facts, view, minus)) ? { related: onTheWay(facts, view), floods: true as const } : {}),
      }),
    );
  }
  return bad.length > 0 ? bad : [fine(part(view.part.id))];
}

/** Fuses and wires between the supply and the coil: the short burns in them. */
function onTheWay(facts: Facts, view: PartView): Subject[] {
  const steps = vehicleRail(facts).get(`${view.part.id}.85`)?.steps ?? [];
  const wires = [...steps.flatMap((s) => s.wire ?? []), ...facts.netWires(facts.netAt(view.part.id, '86'))].filter((w) => w.owner === 'build');
  return [...steps.flatMap((s) => (s.through ? [part(s.through.part.id)] : [])), ...[...new Set(wires)].map((w) => wire(w.id))];
}

interface Across {
  readonly view: PartView;
  /** Ring towards plus. */
  readonly right: boolean;
}

/** Loose diodes between the two sides of the coil. One that bridges a rail and ground is told as a part in backwards. */
function outsideDiodes(facts: Facts, plus: number, minus: number): Across[] {
  if (plus === minus) return [];
  return facts.ofKind('diode').flatMap((view): Across[] => {
    const [a, k] = [netAt(facts, view, 'A'), netAt(facts, view, 'K')];
    if (k === plus && a === minus) return [{ view, right: true }];
    return a === plus && k === minus && !grounded(facts, minus) ? [{ view, right: false }] : [];
  });
}
