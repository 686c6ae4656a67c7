import type { Facts } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { BOARD_SUPPLY } from '../../trade/boards.ts';
import { called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { swapConverter, typing } from '../fixes.ts';
import { type Converter, converters, feedsComputer } from '../rails.ts';

const { fine, found } = verdicts('trimmer-can-wander', 'C6');
/** Absolute limit of 5 V logic parts, V (from memory): a guard must have broken down by then. */
const GUARD_MOST_V = 6;

export const trimmerCanWander = defineRule({
  id: 'trimmer-can-wander',
  code: 'C6',
  level: 'hazard',
  title: 'A trimmer sets the 5 V',
  why: 'A small screw shakes loose in a vehicle, and a dirty track makes it jump. The converter then gives whatever it can, up to nearly all of what comes in, and the computer is gone in a moment.',
  source: { text: 'Data sheet of an adjustable step-down part: output up to 37 V (read); vibration from practice', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    judged(facts).map((c) => {
      const subject = part(c.view.part.id);
      if (!c.view.s.flag('trimmer') || c.view.s.flag('trimmerSealed') || guarded(facts, c)) return fine(subject);
      const mostV = facts.corners.hiV - c.view.s.num('dropV');
      return found({
        level: 'hazard',
        subject,
        what: `${called(c.view)} is set by a screw that nothing holds, and feeds the computer: should it wander, up to ${volts(mostV)} come out instead of ${volts(c.view.s.num('setV'))}.`,
        todo: 'Fit a converter with a fixed output, or set it before anything is joined, seal the screw with lacquer, and measure again.',
        figures: [{ label: 'may come out', value: mostV, unit: 'V' }],
      });
    }),
  repair: (finding, facts) => {
    const c = judged(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!c) return [];
    const seenV = facts.seenSurgeV(c.inKey);
    return [
      ...swapConverter(facts, c, (x) => 0.9 * x.absMaxV >= seenV),
      typing(c.view.part.id, { trimmerSealed: true }, 'Answer: it is set, measured, and sealed with lacquer', false),
    ];
  },
});

/** Step-down converters that a computer hangs on. */
function judged(facts: Facts): Converter[] {
  return converters(facts).filter((c) => c.view.kind.kind === 'step-down' && feedsComputer(facts, c));
}

/** A clamp at every such computer that breaks down between its window and its limit, behind a fuse that it can blow. */
function guarded(facts: Facts, c: Converter): boolean {
  const ways = facts.reach(c.outKey, ['fuse', 'contact', 'conductor']);
  const fed = facts.ofKind('computer').map((v) => `${v.part.id}.${supplyPair(v.s).plus}`);
  const behind = fed.filter((key) => ways.has(key));
  return (
    behind.length > 0 &&
    behind.every((key) =>
      facts.ofKind('surge-clamp').some((v) => {
        const steps = facts.netOf(`${v.part.id}.K`) === facts.netOf(key) ? ways.get(key) : undefined;
        return steps?.some((s) => s.linkType === 'fuse') && v.s.num('brMinV') > BOARD_SUPPLY.maxV && v.s.num('brMaxV') <= GUARD_MOST_V;
      }),
    )
  );
}
