import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { HICCUP_S } from '../../trade/converters.ts';
import { nearestPreferred } from '../../trade/preferred.ts';
import { called, defineRule, part, plain, two, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { filledBy } from '../outputs.ts';
import { type Converter, converters, outputA } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('output-capacitor-stalls-start', 'C11');

export const outputCapacitorStallsStart = defineRule({
  id: 'output-capacitor-stalls-start',
  code: 'C11',
  level: 'fault',
  title: 'Big capacitor after the converter stops it starting',
  why: 'A converter fills the capacitors behind it with what its current limit leaves over. If that takes too long it believes in a short, switches off, and tries again for ever.',
  source: { text: 'Time C × V / (limit − load); a converter gives up after about 10 ms (common practice, no source)', grade: "fitters' habit" },
  needs: 'readings',
  limits: [
    { key: 'hiccupS', title: 'A converter gives up on a start after', unit: 's', value: HICCUP_S, least: 0.001, most: 1, basis: 'common practice, no source' },
  ],
  check: (facts) => converters(facts).flatMap((c) => judge(facts, c)),
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    return c ? smaller(facts, c) : [];
  },
});

interface Start {
  readonly caps: readonly PartView[];
  readonly farad: number;
  /** What the limit leaves over for filling, A. */
  readonly leftA: number;
  readonly seconds: number;
}

function startOf(facts: Facts, c: Converter): Start | null {
  if (c.view.kind.kind !== 'step-down') return null;
  const caps = filledBy(facts, c, ['capacitor']);
  if (caps.length === 0) return null;
  const farad = caps.reduce((sum, cap) => sum + cap.s.num('farad') * (1 + cap.s.num('tol')), 0);
  const stated = c.view.s.num('limitMinA');
  const leftA = (stated > 0 ? stated : c.view.s.num('ratedA')) - outputA(facts, c).peakA;
  return { caps, farad, leftA, seconds: leftA > 0 ? (farad * c.source.nominalV) / leftA : 0 };
}

function judge(facts: Facts, c: Converter): Verdict[] {
  const start = startOf(facts, c);
  // What asks for more than the limit is another rule's matter.
  if (!start || start.leftA <= 0) return [];
  const subject = part(c.view.part.id);
  const most = facts.threshold('hiccupS', HICCUP_S);
  // One without a pause holds its limit until all is filled.
  if (start.seconds <= most || c.view.s.num('pauseS') === 0) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      related: start.caps.map((cap) => part(cap.part.id)),
      what: `${called(c.view)} needs ${two(1e3 * start.seconds)} ms to fill the ${plain(1e6 * start.farad)} µF behind it with the ${two(start.leftA)} A that its load leaves over, and gives up after about ${plain(1e3 * most)} ms.`,
      todo: 'Put the large capacitor ahead of the converter, or fit a smaller one.',
      figures: [
        { label: 'time to fill', value: start.seconds, unit: 's' },
        { label: 'gives up after', value: most, unit: 's' },
        { label: 'left over', value: start.leftA, unit: 'A' },
      ],
    }),
  ];
}

/** A smaller value for the largest capacitor, when that alone is enough. */
function smaller(facts: Facts, c: Converter): Repair[] {
  const start = startOf(facts, c);
  if (!start || start.leftA <= 0) return [];
  const largest = [...start.caps].sort((a, b) => b.s.num('farad') - a.s.num('farad'))[0]!;
  const most = (facts.threshold('hiccupS', HICCUP_S) * start.leftA) / c.source.nominalV;
  const others = start.farad - largest.s.num('farad') * (1 + largest.s.num('tol'));
  const room = (most - others) / (1 + largest.s.num('tol'));
  if (room < 1e-6) return [];
  const farad = nearestPreferred(room, 'E6', 'down');
  return [typing(largest.part.id, { farad }, `Fit ${plain(1e6 * farad)} µF at ${called(largest)}`, false)];
}
