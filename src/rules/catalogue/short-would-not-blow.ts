import { largestFuseA } from '../../analysis/choose.ts';
import { amps, called, defineRule, part, two, verdicts, wire, wireName } from '../defineRule.ts';
import { change } from '../taps.ts';

const { fine, found } = verdicts('short-would-not-blow', 'A7');
/** Gates of ISO 8820-3 medium blade fuses: below 1.35 a fuse need never open, at 2 within 5 s, at 3.5 within 0.5 s. */
const NEVER = 1.35;
const SLOW = 2;
const BRISK = 3.5;

export const shortWouldNotBlow = defineRule({
  id: 'short-would-not-blow',
  code: 'A7',
  level: 'hazard',
  title: 'A short at the far end would not blow the fuse',
  why: 'A long thin wire limits the current of a short at its end. If that is not well above the fuse’s rating, the fuse waits while the wire cooks.',
  source: { text: 'Time gates of ISO 8820-3 (from memory); 135 %: up to 600 s, 200 %: up to 5 s, 350 %: up to 0.5 s', grade: 'standard' },
  needs: 'readings',
  always: true,
  check: (facts) =>
    facts.ofKind('blade-fuse').flatMap((view) => {
      const fuse = facts.analysis.fuses[view.part.id];
      if (!fuse || !Number.isFinite(fuse.leastShortA) || fuse.leastShortWire === null) return [];
      const subject = part(view.part.id);
      const ratio = fuse.leastShortA / fuse.ratingA;
      const limit = facts.analysis.wires[fuse.leastShortWire]?.limitA ?? 0;
      // What cannot exceed the wire's own limit needs no fuse to end it.
      if (ratio >= BRISK || fuse.greatestShortA <= limit) return [fine(subject)];
      const level = ratio < NEVER ? 'hazard' : ratio < SLOW ? 'fault' : 'advice';
      return [
        found({
          level: level === 'fault' && fuse.ratingA > limit ? 'hazard' : level,
          subject,
          related: [wire(fuse.leastShortWire)],
          what: `A short at the far end of ${wireName(facts, fuse.leastShortWire)} drives only ${amps(fuse.leastShortA)} on a weak battery: ${two(ratio)} times the rating of ${called(view)} (${fuse.ratingA} A), which ${ratio < NEVER ? 'need never open' : ratio < SLOW ? 'may take more than 5 s' : 'may take up to 5 s'}.`,
          todo: 'Fit a smaller fuse, a thicker wire, or a fuse of its own where the long branch starts.',
          figures: [
            { label: 'least short-circuit current', value: fuse.leastShortA, unit: 'A' },
            { label: 'times the rating', value: ratio, unit: '×' },
          ],
        }),
      ];
    }),
  repair: (finding, facts) => {
    const fuse = facts.analysis.fuses[finding.subject.id];
    if (!fuse) return [];
    const smaller = largestFuseA(Math.min(fuse.leastShortA / BRISK, fuse.ratingA - 0.1));
    if (smaller === null || (fuse.heatA / fuse.allowedA) * fuse.ratingA > smaller) return [];
    return [
      {
        title: `Fit a ${smaller} A fuse`,
        safe: true,
        edit: (plan) =>
          change(plan, 'fuse.rating', `Fit a ${smaller} A fuse`, (draft) => {
            const p = plan.parts[finding.subject.id];
            if (p) draft.setPart({ ...p, settings: { ...p.settings, ratingA: smaller } });
          }),
      },
    ];
  },
});
