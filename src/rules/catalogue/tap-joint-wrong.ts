import type { Facts } from '../../analysis/factsTypes.ts';
import { PIERCING_MM2, PIERCING_MOST_A } from '../../trade/fitting.ts';
import { amps, called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { type Tap, taps } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('tap-joint-wrong', 'B6');
/** Places too wet or too shaken for a joint that lets air and water at the copper. */
const HARSH: ReadonlySet<string> = new Set(['engine-bay', 'outside']);

export const tapJointWrong = defineRule({
  id: 'tap-joint-wrong',
  code: 'B6',
  level: 'fault',
  stage: 'wire',
  title: 'Wrong joint for this tap',
  why: 'Where our wire joins the vehicle’s lead is the joint that fails first. A tap that does not fit the wire cuts strands or holds by one; it heats, corrodes, and works loose, and then the vehicle’s own circuit is broken as well.',
  source: { text: 'Sizes of piercing taps from makers’ lists (from memory); 3 A and dry places only: common practice, no source', grade: "fitters' habit" },
  needs: 'readings',
  disputed:
    'Some workshops ban piercing taps and solder altogether, for others both are daily work. Here a piercing tap passes where it fits both wires, carries little and stays dry; solder passes when it is sleeved and held.',
  check: (facts) =>
    taps(facts)
      .filter((t) => t.source.kind === 'feed')
      .map((t) => judge(facts, t)),
  repair: (finding) => [
    typing(finding.subject.id, { joint: 'adapter' }, 'Join it with a plug-in adapter', false),
    typing(finding.subject.id, { joint: 'crimp' }, 'Join it with a crimp and sleeve', false),
  ],
});

function judge(facts: Facts, tap: Tap): Verdict {
  const subject = part(tap.view.part.id);
  const joint = tap.view.s.str('joint');
  if (joint === 'unknown') return unknown(subject, `how our wire joins ${called(tap.view)}: adapter, crimp, solder, piercing tap`);
  const wrong = joint === 'twist' ? 'strands that are twisted and taped work loose and corrode' : joint === 'piercing' ? piercingWrong(facts, tap) : null;
  if (wrong === null) return fine(subject);
  return found({
    level: 'fault',
    subject,
    what: `The joint at ${called(tap.view)} will not last: ${wrong}.`,
    todo: 'Take a plug-in adapter, which cuts nothing, or a crimp with an adhesive-lined sleeve.',
  });
}

function piercingWrong(facts: Facts, tap: Tap): string | null {
  const leadMm2 = tap.view.s.num('leadMm2');
  const ours = facts
    .netWires(facts.netOf(tap.key))
    .filter((w) => w.owner === 'build' && [w.from, w.to].some((e) => `${e.part}.${e.terminal}` === tap.key))
    .flatMap((w) => facts.analysis.wires[w.id] ?? []);
  const sizes = [leadMm2, ...ours.map((w) => w.areaMm2)];
  const holds = PIERCING_MM2.some((t) => sizes.every((mm2) => mm2 >= t.least && mm2 <= t.most));
  if (!holds)
    return `no piercing tap holds wires of ${[...new Set(sizes)]
      .sort((a, b) => a - b)
      .map(plain)
      .join(' and ')} mm² together`;
  const amp = ours.reduce((sum, w) => sum + w.heatA, 0);
  if (amp > PIERCING_MOST_A) return `a piercing tap should carry ${amps(PIERCING_MOST_A)} at the most, and this one carries ${amps(amp)}`;
  const zone = facts.plan.zones[tap.view.part.zone];
  return zone && HARSH.has(zone.kind) ? `a piercing tap lets water at the copper, and “${zone.name}” is wet or shaken` : null;
}
