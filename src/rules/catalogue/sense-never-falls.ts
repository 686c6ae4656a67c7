import type { Facts } from '../../analysis/factsTypes.ts';
import type { VehicleState } from '../../plan/types.ts';
import { called, defineRule, part, STATE_WORDS, verdicts } from '../defineRule.ts';
import { keyFeeds } from '../keyLine.ts';
import { isLit, keySenses, OTHER_THINGS } from '../keySense.ts';
import { senseInstead } from '../resense.ts';
import type { LedCircuit, Sensor } from '../sensing.ts';
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
  check: (facts) => watched(facts).map((sensor) => judge(facts, sensor, sensor.led!)),
  repair: (finding, facts) => {
    const sensor = watched(facts).find((s) => s.opto.part.id === finding.subject.id);
    return sensor ? senseInstead(facts, sensor, keyFeeds(facts)) : [];
  },
});

/** Sensors on the pin by which a computer watches the key. */
function watched(facts: Facts): Sensor[] {
  return keySenses(facts).flatMap(({ sensor, line }) => (sensor && line ? [sensor] : []));
}

function judge(facts: Facts, sensor: Sensor, led: LedCircuit): Verdict {
  const subject = part(sensor.opto.part.id);
  const feed = led.supply.view;
  const line = led.supply.source.line ?? '30';
  const lit = (state: VehicleState): boolean => isLit(facts, sensor, line, state);
  const timer = led.hops.find((h) => h.link.type === 'contact' && h.views[0]!.kind.kind === 'delay-off-relay')?.views[0];
  const say = (level: 'fault' | 'advice', what: string, state: VehicleState): Verdict =>
    found({
      level,
      subject,
      related: [part(feed.part.id), part(sensor.output!.use.computer.part.id)],
      what,
      todo:
        level === 'fault'
          ? 'Sense a line that falls with the key: ignition (15) first, else accessory (75).'
          : 'Sense ignition (15) if the computer should stop as soon as the key is off.',
      state,
      band: 'typical',
    });
  const other = OTHER_THINGS[line];
  if (other) return say('fault', `${called(sensor.opto)} watches ${called(feed)}, which follows ${other} and not the key.`, 'RUN_CHARGING');
  if (timer)
    return say('fault', `${called(sensor.opto)} watches the output of ${called(timer)}, which falls only when the computer’s own supply falls.`, 'RETAIN');
  if (!lit('RUN_CHARGING')) return fine(subject);
  if (OFF.every(lit)) {
    return say(
      'fault',
      `${called(sensor.opto)} watches ${called(feed)}, which is live with the key on and with the key off: the computer never hears of key-off.`,
      'OFF_ASLEEP',
    );
  }
  // A retained line that a door ends does fall; what no door ends falls by a timer alone.
  const late = OFF.find(lit);
  if (!late) return fine(subject);
  return say(
    'advice',
    `${called(sensor.opto)} watches ${called(feed)}, which is still live in one of the states of an off key (${STATE_WORDS[late]}): the computer hears of key-off only when something’s time has run out.`,
    late,
  );
}
