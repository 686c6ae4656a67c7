import { largestFuseA } from '../../analysis/choose.ts';
import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { WireReport } from '../../analysis/types.ts';
import { coldOhm } from '../../trade/fuses.ts';
import { amps, called, defineRule, part, two, verdicts, wire, wireName } from '../defineRule.ts';
import { converters } from '../rails.ts';
import { standsFilling } from '../switchOnSurge.ts';
import { change } from '../taps.ts';
import type { Verdict } from '../types.ts';
import { guardedBy } from '../wireEnds.ts';

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
  check: (facts) => facts.ofKind('blade-fuse').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const fuse = facts.analysis.fuses[finding.subject.id];
    if (!view || !fuse) return [];
    const limited = limitAhead(facts, view);
    const shortA = limited ? limited.leastA : fuse.leastShortA;
    const smaller = largestFuseA(Math.min(shortA / (limited ? SLOW : BRISK), fuse.ratingA - 0.1));
    if (smaller === null || (fuse.heatA / fuse.allowedA) * fuse.ratingA > smaller) return [];
    // A smaller fuse has more resistance: the short must still be brisk with it in the way.
    const slower = fuse.leastShortA * (1 - (fuse.leastShortA * 1.3 * (coldOhm(smaller) - coldOhm(fuse.ratingA))) / facts.corners.loV);
    if (!limited && slower < BRISK * smaller) return [];
    if (!standsFilling(facts, view, smaller)) return [];
    const title = `Fit a ${smaller} A fuse`;
    return [
      {
        title,
        safe: true,
        // Sizes stay as they are: left to themselves the wires would grow thinner with the fuse, and the short weaker.
        edit: (plan) =>
          change(plan, 'fuse.rating', title, (draft) => {
            const p = plan.parts[view.part.id];
            if (p) draft.setPart({ ...p, settings: { ...p.settings, ratingA: smaller } });
            for (const w of sizedBy(facts, view.part.id)) {
              const row = plan.wires[w.id];
              if (row?.owner === 'build' && row.areaMm2 === undefined) draft.setWire({ ...row, areaMm2: w.areaMm2 });
            }
          }),
      },
    ];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const fuse = facts.analysis.fuses[view.part.id];
  if (!fuse) return [];
  const limited = limitAhead(facts, view);
  if (limited) return [judgeLimited(facts, view, fuse.ratingA, limited)];
  if (!Number.isFinite(fuse.leastShortA) || fuse.leastShortWire === null) return [];
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
      what: `A short at the far end of ${wireName(facts, fuse.leastShortWire)} drives only ${amps(fuse.leastShortA)} on a weak battery: ${two(ratio)} times the rating of ${called(view)} (${amps(fuse.ratingA)}), which ${ratio < NEVER ? 'need never open' : ratio < SLOW ? 'may take more than 5 s' : 'may take up to 5 s'}.`,
      todo: 'Fit a smaller fuse, a thicker wire, or a fuse of its own where the long branch starts.',
      figures: [
        { label: 'least short-circuit current', value: fuse.leastShortA, unit: 'A' },
        { label: 'times the rating', value: ratio, unit: '×' },
      ],
    }),
  ];
}

/** Wires whose size goes by a fuse: those it protects, and those that lead to it. */
function sizedBy(facts: Facts, fuse: string): WireReport[] {
  const ahead = ['1', '2'].flatMap((t) => facts.netWires(facts.netOf(`${fuse}.${t}`))).flatMap((w) => facts.analysis.wires[w.id] ?? []);
  return [...new Set([...guardedBy(facts, fuse), ...ahead])];
}

interface Limited {
  readonly by: PartView;
  readonly leastA: number;
  readonly mostA: number;
}

/** The converter that feeds a fuse, with its current limit; null when the vehicle feeds it. */
function limitAhead(facts: Facts, view: PartView): Limited | null {
  const id = view.part.id;
  // A store beside it gives what the converter does not.
  if (['1', '2'].some((t) => facts.sourcesFor(`${id}.${t}`).some((s) => s.source.kind === 'store'))) return null;
  for (const c of converters(facts)) {
    const reached = facts.reach(c.outKey, ['contact', 'conductor', 'diode', 'fuse']);
    if (!reached.has(`${id}.1`) && !reached.has(`${id}.2`)) continue;
    const s = c.view.s;
    const mostA = c.source.limitA ?? Number.POSITIVE_INFINITY;
    const leastA = c.view.kind.kind === 'step-down' && s.num('limitMinA') > 0 ? s.num('limitMinA') : s.num('ratedA');
    return { by: c.view, mostA, leastA: Math.min(leastA, mostA) };
  }
  return null;
}

/** Behind a converter the short is as large as the converter lets it be. */
function judgeLimited(facts: Facts, view: PartView, ratingA: number, limited: Limited): Verdict {
  const subject = part(view.part.id);
  const ratio = limited.leastA / ratingA;
  if (ratio >= SLOW) return fine(subject);
  const thin = guardedBy(facts, view.part.id).filter((w) => w.limitA < limited.mostA);
  return found({
    level: thin.length > 0 ? 'hazard' : 'advice',
    subject,
    related: [part(limited.by.part.id), ...thin.map((w) => wire(w.id))],
    what: `In a short behind ${called(view)}, ${called(limited.by)} gives only ${amps(limited.leastA)}, ${two(ratio)} times its ${amps(ratingA)}: the converter, not the fuse, acts${thin.length > 0 ? `, and it may push ${amps(limited.mostA)} for ever through ${wireName(facts, thin[0]!.id)}, which may carry ${amps(thin[0]!.limitA)}` : ''}.`,
    todo: 'Fit a smaller fuse, or count on the converter’s limit and size the wires for it.',
    figures: [
      { label: 'least the converter gives', value: limited.leastA, unit: 'A' },
      { label: 'times the rating', value: ratio, unit: '×' },
    ],
  });
}
