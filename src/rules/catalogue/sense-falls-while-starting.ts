import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { STARTER } from '../../trade/keyEvents.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { longerFilter } from '../filterEdits.ts';
import { keyFeeds } from '../keyLine.ts';
import { hears, type KeySense, keySenses, OTHER_THINGS, watcher } from '../keySense.ts';
import { senseInstead } from '../resense.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('sense-falls-while-starting', 'D12');
/** A filter is set this much longer than the longest start, in steps of so many seconds (common practice). */
const IN_HAND = 1.25;
const STEP_S = 5;

export const senseFallsWhileStarting = defineRule({
  id: 'sense-falls-while-starting',
  code: 'D12',
  level: 'fault',
  title: 'Sense line falls while starting',
  why: 'Many lines are switched off while the starter turns. A computer that watches one of them takes every start of the engine for key-off, unless it waits longer than any start lasts.',
  source: { text: 'Workshop continuity chart of an ignition switch (read): accessory is open in Start, ignition stays closed', grade: 'data sheet' },
  needs: 'readings',
  disputed:
    'Accessory 75 is easy to reach behind a radio, and dead while the starter turns; ignition 15 stays live through the start, and is harder to find. 75 with a filter that outlasts the start works; without one the computer stops at every start. Here 15 is the first choice, and 75 passes with enough filter time.',
  limits: [
    { key: 'starterS', title: 'Longest time that the starter turns', unit: 's', value: STARTER.mostS, least: 0.5, most: 60, basis: 'fitters’ practice' },
  ],
  explains: ['dips-taken-for-key-off'],
  check: (facts) => keySenses(facts).flatMap((k) => judge(facts, k)),
  repair: (finding, facts) => {
    const k = keySenses(facts).find((x) => subjectOf(x).part.id === finding.subject.id);
    if (!k) return [];
    const filterS = Math.ceil((longestS(facts) * IN_HAND) / STEP_S) * STEP_S;
    return [
      longerFilter(facts, k.computer, filterS),
      ...(k.sensor
        ? senseInstead(
            facts,
            k.sensor,
            keyFeeds(facts).filter((f) => f.facts.tap?.line === '15'),
          )
        : []),
    ];
  },
});

function longestS(facts: Facts): number {
  return facts.threshold('starterS', STARTER.mostS);
}

/** Its optocoupler, or the computer itself where resistors bring the line to its pin. */
function subjectOf({ computer, sensor }: KeySense): PartView {
  return sensor ? sensor.opto : computer;
}

function judge(facts: Facts, k: KeySense): Verdict[] {
  const { computer, sensor, line, feed } = k;
  // A line that follows something else than the key is another rule's matter.
  if (!line || !feed || OTHER_THINGS[line]) return [];
  const subject = part(subjectOf(k).part.id);
  if (!hears(facts, k, 'RUN_STOPPED') || hears(facts, k, 'START')) return [fine(subject)];
  const filterS = computer.s.num('filterS');
  const startS = longestS(facts);
  if (filterS >= startS) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      related: [part(feed.part.id), ...(sensor ? [part(computer.part.id)] : [])],
      what: `${watcher(k)} watches ${called(feed)}, which is dead while the starter turns, for up to ${plain(startS)} s; ${called(computer)} believes that the key is off after ${plain(filterS)} s and begins to stop.`,
      todo: 'Sense ignition (15), which stays live while starting, or let the computer wait longer than the longest start.',
      figures: [
        { label: 'waits', value: filterS, unit: 's' },
        { label: 'longest start', value: startS, unit: 's' },
      ],
      state: 'START',
      band: 'typical',
    }),
  ];
}
