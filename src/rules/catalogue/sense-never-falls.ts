import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { Line, VehicleState } from '../../plan/types.ts';
import { called, defineRule, part, STATE_WORDS, verdicts } from '../defineRule.ts';
import { keyFeeds } from '../keyLine.ts';
import { hears, type KeySense, keySenses, OTHER_THINGS, watcher } from '../keySense.ts';
import { senseInstead } from '../resense.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('sense-never-falls', 'D11');
const OFF: readonly VehicleState[] = ['RETAIN_DOOR', 'OFF_AWAKE', 'OFF_ASLEEP'];
export const senseNeverFalls = defineRule({
  id: 'sense-never-falls',
  code: 'D11',
  level: 'fault',
  title: 'The sensed line does not follow the key',
  why: 'The computer stops itself when the line that it watches goes dead. A line that stays live, or goes dead for other reasons, tells it nothing.',
  source: { text: 'Lines of DIN 72552 and when they are live: workshop tables (read) and practice', grade: 'standard' },
  needs: 'readings',
  explains: ['lamp-never-sleeps'],
  check: (facts) => watched(facts).map((k) => judge(facts, k, k.feed)),
  repair: (finding, facts) => {
    const sensor = watched(facts).find((k) => k.sensor?.opto.part.id === finding.subject.id)?.sensor;
    return sensor ? senseInstead(facts, sensor, keyFeeds(facts)) : [];
  },
});

type Watched = KeySense & { readonly line: Line; readonly feed: PartView };

/** The pins by which computers watch the key, where a line of the vehicle comes to them. */
function watched(facts: Facts): Watched[] {
  return keySenses(facts).flatMap((k) => (k.line !== null && k.feed !== null ? [{ ...k, line: k.line, feed: k.feed }] : []));
}

function judge(facts: Facts, k: Watched, feed: PartView): Verdict {
  const { computer, sensor, line } = k;
  const subject = part(sensor ? sensor.opto.part.id : computer.part.id);
  const name = watcher(k);
  const lit = (state: VehicleState): boolean => hears(facts, k, state) === true;
  const timer = sensor?.led?.hops.find((h) => h.link.type === 'contact' && h.views[0]!.kind.kind === 'delay-off-relay')?.views[0];
  const say = (level: 'fault' | 'advice', what: string, state: VehicleState): Verdict =>
    found({
      level,
      subject,
      related: [part(feed.part.id), ...(sensor ? [part(computer.part.id)] : [])],
      what,
      todo:
        level === 'fault'
          ? 'Sense a line that falls with the key: ignition (15) first, else accessory (75).'
          : 'Sense ignition (15) if the computer should stop as soon as the key is off.',
      state,
      band: 'typical',
    });
  const other = OTHER_THINGS[line];
  if (other) return say('fault', `${name} watches ${called(feed)}, which follows ${other} and not the key.`, 'RUN_CHARGING');
  if (timer) return say('fault', `${name} watches the output of ${called(timer)}, which falls only when the computer’s own supply falls.`, 'RETAIN');
  if (!lit('RUN_CHARGING')) return fine(subject);
  if (OFF.every(lit)) {
    return say(
      'fault',
      `${name} watches ${called(feed)}, which is live with the key on and with the key off: the computer never hears of key-off.`,
      'OFF_ASLEEP',
    );
  }
  // A retained line that a door ends does fall; what no door ends falls by a timer alone.
  const late = OFF.find(lit);
  if (!late) return fine(subject);
  return say(
    'advice',
    `${name} watches ${called(feed)}, which is still live in one of the states of an off key (${STATE_WORDS[late]}): the computer hears of key-off only when something’s time has run out.`,
    late,
  );
}
