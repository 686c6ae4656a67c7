import { flowing } from '../beyond.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { aboutDays, cutRepairs, drawers, joined, parkedKnown } from '../parkedShare.ts';
import type { Subject } from '../types.ts';

const { fine, found, unknown } = verdicts('battery-flat-too-soon', 'G2');
/** Shortening by more than this share is worth a word (fitters' habit). */
const SHORTER = 0.2;

export const batteryFlatTooSoon = defineRule({
  id: 'battery-flat-too-soon',
  code: 'G2',
  level: 'fault',
  title: 'Will not start after standing',
  why: 'From about 60 % charge downwards an engine may not start any more, least of all in the cold. The vehicle’s own draw, the build’s and the battery’s own loss together decide after how many days that is.',
  source: { text: 'Forty percent of the capacity may go (practice); self-discharge 4 % a month (from memory)', grade: "fitters' habit" },
  needs: 'readings',
  explains: ['stands-too-long'],
  check: (facts) => {
    if (!joined(facts)) return [];
    const subject: Subject = { kind: 'plan', id: facts.plan.id };
    if (!parkedKnown(facts)) return [unknown(subject, 'the parked state could not be worked out')];
    const { buildA, days, daysWithout } = facts.analysis.parked;
    const standing = facts.plan.vehicle.standingDays;
    const tooShort = days < standing;
    const shortened = days < (1 - SHORTER) * daysWithout;
    // What the vehicle does to itself is not the build's fault.
    if (!shortened && (!tooShort || daysWithout < standing)) return [fine(subject)];
    const most = drawers(facts)[0];
    return [
      found({
        level: tooShort ? 'fault' : 'advice',
        subject,
        related: most ? [part(most.view.part.id)] : [],
        what: `Left standing, the battery falls to where the engine may not start in ${aboutDays(days)}; without the build in ${aboutDays(daysWithout)}${tooShort ? `. The vehicle is meant to stand ${standing} days` : ''}. The build draws ${flowing(buildA)} while parked${most ? `, most of it ${called(most.view)}` : ''}.`,
        todo: 'Cut what draws while parked, or fit an isolator and disconnect the battery before a long stand.',
        figures: [
          { label: 'days', value: days, unit: 'days' },
          { label: 'days without the build', value: daysWithout, unit: 'days' },
          { label: 'meant to stand', value: standing, unit: 'days' },
        ],
        state: 'OFF_ASLEEP',
        band: 'typical',
      }),
    ];
  },
  repair: (_, facts) => cutRepairs(facts),
});
