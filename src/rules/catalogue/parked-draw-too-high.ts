import { listed } from '../../plan/listed.ts';
import { PARKED_LIMIT_A } from '../../trade/battery.ts';
import { BEYOND, flowing } from '../beyond.ts';
import { amps, ampsApart, called, defineRule, part, two, verdicts } from '../defineRule.ts';
import { cutRepairs, drawers, joined, parkedKnown } from '../parkedShare.ts';
import type { Subject } from '../types.ts';

const { fine, found, unknown } = verdicts('parked-draw-too-high', 'G1');
/** What a build may add to a sleeping vehicle, A: a fault above half of the workshop limit, worth a word above a tenth (practice). */
const FAULT_A = PARKED_LIMIT_A / 2;
const ADVICE_A = PARKED_LIMIT_A / 10;
/** Parts named in the finding. */
const NAMED = 3;

export const parkedDrawTooHigh = defineRule({
  id: 'parked-draw-too-high',
  code: 'G1',
  level: 'fault',
  title: 'Too much drawn while parked',
  why: 'A parked vehicle draws a little for its clock and its locks. What the build adds to that, day and night, is taken out of the battery that must start the engine.',
  source: { text: 'Workshop limit 25 to 50 mA for a whole sleeping vehicle (a vehicle maker’s service manual, read)', grade: 'data sheet' },
  needs: 'readings',
  disputed:
    'For some, anything above 5 mA is wrong; workshops call 25 to 50 mA for a whole vehicle usual. Small figures suit vehicles that stand for weeks; daily drivers never notice. Here 5 mA of the build is worth a look and 25 mA the most, with the days until the next start beside it; both can be changed for a plan.',
  limits: [
    {
      key: 'parkedAdviceA',
      title: 'Parked draw of this build, worth a look',
      unit: 'A',
      value: ADVICE_A,
      least: 0.0001,
      most: 1,
      basis: 'a tenth of the workshop limit for a whole sleeping vehicle',
    },
    {
      key: 'parkedFaultA',
      title: 'Parked draw of this build, the most',
      unit: 'A',
      value: FAULT_A,
      least: 0.0001,
      most: 2,
      basis: 'half of the workshop limit for a whole sleeping vehicle',
    },
  ],
  explains: ['battery-flat-too-soon'],
  check: (facts) => {
    if (!joined(facts)) return [];
    const subject: Subject = { kind: 'plan', id: facts.plan.id };
    if (!parkedKnown(facts)) return [unknown(subject, 'the parked state could not be worked out')];
    const { buildA, vehicleA } = facts.analysis.parked;
    const faultA = facts.threshold('parkedFaultA', FAULT_A);
    const adviceA = facts.threshold('parkedAdviceA', ADVICE_A);
    const over = vehicleA + buildA > PARKED_LIMIT_A && vehicleA <= PARKED_LIMIT_A;
    if (buildA <= adviceA) return [fine(subject)];
    const most = drawers(facts).slice(0, NAMED);
    const level = buildA > faultA || over ? 'fault' : 'advice';
    const [draws, limit] = ampsApart(buildA, level === 'fault' ? faultA : adviceA);
    const against = level === 'fault' ? `${limit} is the most it should` : `from ${limit} on it is worth a look, and ${amps(faultA)} is the most it should`;
    return [
      found({
        level,
        subject,
        related: most.map((m) => part(m.view.part.id)),
        what: `Parked, the build draws ${buildA > BEYOND.amp ? `${flowing(buildA)}, a short circuit` : draws}; ${against}, with ${amps(PARKED_LIMIT_A)} for the whole vehicle, which draws ${amps(vehicleA)} itself.${most.length === 0 ? ' It goes through wires and joints alone.' : ` Most of it: ${listed(most.map((m) => `${called(m.view)} ${amps(m.amp)}`))}.`}`,
        todo:
          most.length === 0
            ? 'Find what joins the feed to ground with nothing between, and mend that first.'
            : 'Cut the supply once the computer has stopped: with a hold relay, or with the converter’s enable.',
        figures: [
          { label: 'build, parked', value: buildA, unit: 'A' },
          { label: 'vehicle, parked', value: vehicleA, unit: 'A' },
          { label: 'ampere-hours in a day', value: Number(two(buildA * 24)), unit: 'Ah' },
        ],
        state: 'OFF_ASLEEP',
        band: 'typical',
      }),
    ];
  },
  repair: (_, facts) => cutRepairs(facts),
});
