import { setVehicle } from '../../plan/edits.ts';
import { defineRule, plain, verdicts } from '../defineRule.ts';
import { aboutDays, joined, parkedKnown } from '../parkedShare.ts';
import type { Subject } from '../types.ts';

const { fine, found, unknown } = verdicts('stands-too-long', 'G8');

export const standsTooLong = defineRule({
  id: 'stands-too-long',
  code: 'G8',
  level: 'advice',
  title: 'Stands longer than its battery lasts',
  why: 'A machine of one season stands for months, and its own clock and locks alone empty the battery in a few weeks. With an isolator the battery rests; but then the computer has lost its clock when it comes back.',
  source: { text: 'Practice with seasonal machines', grade: "fitters' habit" },
  needs: 'readings',
  disputed:
    'Some count milliamps for a vehicle that stands all winter; others say that only an isolator helps, since the vehicle’s own draw empties the battery anyhow. Here the days are computed, and where the vehicle alone does not last them, the isolator is the answer.',
  check: (facts) => {
    if (!joined(facts)) return [];
    const subject: Subject = { kind: 'plan', id: facts.plan.id };
    if (!parkedKnown(facts)) return [unknown(subject, 'the parked state could not be worked out')];
    const { standingDays, isolator } = facts.plan.vehicle;
    const { days, daysWithout } = facts.analysis.parked;
    if (isolator || standingDays <= days) return [fine(subject)];
    return [
      found({
        level: 'advice',
        subject,
        what: `The vehicle is meant to stand ${plain(standingDays)} days; its battery lasts ${aboutDays(days)}${aboutDays(days) === aboutDays(daysWithout) ? ', with or without the build' : `, and without the build ${aboutDays(daysWithout)}`}.`,
        todo: 'Fit an isolator, or take the negative lead off before a long stand; let the computer set its clock by network or position receiver afterwards.',
        figures: [
          { label: 'meant to stand', value: standingDays, unit: 'days' },
          { label: 'lasts', value: days, unit: 'days' },
        ],
        state: 'OFF_ASLEEP',
        band: 'typical',
      }),
    ];
  },
  repair: () => [{ title: 'Answer: it has a battery isolator, and it is used', safe: false, edit: (plan) => setVehicle(plan, { isolator: true }) }],
});
