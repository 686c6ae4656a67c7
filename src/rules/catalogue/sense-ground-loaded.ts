import type { Facts } from '../../analysis/factsTypes.ts';
import type { Reading } from '../../analysis/types.ts';
import type { Wire } from '../../plan/types.ts';
import { flowing } from '../beyond.ts';
import { called, defineRule, part, STATE_WORDS, two, verdicts, wire, wireName } from '../defineRule.ts';
import { landing, ownReturn, returnEnd } from '../returnPath.ts';
import { type Sensor, sensors } from '../sensing.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('sense-ground-loaded', 'D15');
/** A ground that carries so much and is lifted by so much moves what is sensed over it (fitters' habit). */
const LOADED_A = 1;
const LIFTED_V = 0.3;

export const senseGroundLoaded = defineRule({
  id: 'sense-ground-loaded',
  code: 'D15',
  level: 'fault',
  title: 'The sensor’s return lies on a loaded ground wire',
  why: 'A heavy load lifts its ground wire by some tenths of a volt when it is on. A sensor that returns over the same wire then sees its line fall by that much, and may read the heater instead of the key.',
  source: { text: '0.3 V and 1 A: common practice, no source', grade: "fitters' habit" },
  needs: 'readings',
  explains: ['isolation-thrown-away'],
  check: (facts) => sensors(facts).flatMap((s) => (s.led?.supply.vehicle ? [judge(facts, s)] : [])),
  repair: (finding, facts) => {
    const sensor = sensors(facts).find((s) => s.opto.part.id === finding.subject.id);
    const lifted = sensor && worst(facts, sensor);
    if (!sensor?.led || !lifted) return [];
    const { view, terminal } = returnEnd(facts, sensor.opto, 'K', sensor.led);
    return ownReturn(facts, view, terminal, lifted.first, sensor.led.supply.view.part.zone);
  },
});

interface Lifted {
  readonly volt: number;
  readonly loaded: Wire;
  readonly amp: number;
  readonly reading: Reading;
  readonly first: Wire | null;
}

/** The reading in which the LED's return is lifted most over where it comes home, by wires that carry much. */
function worst(facts: Facts, { opto, led }: Sensor): Lifted | null {
  const { view, terminal } = returnEnd(facts, opto, 'K', led);
  const { home } = landing(facts, view, terminal);
  if (!home) return null;
  const first = home.wires[0] ?? null;
  let found: Lifted | null = null;
  for (const reading of facts.solved) {
    const volt = facts.across(`${view.part.id}.${terminal}`, home.key, reading.state, reading.band);
    if (volt === null || volt <= (found?.volt ?? LIFTED_V)) continue;
    for (const w of home.wires) {
      const amp = Math.abs(facts.wireA(w.id, reading.state, reading.band) ?? 0);
      if (amp > LOADED_A && (found === null || found.reading !== reading || amp > found.amp)) found = { volt, loaded: w, amp, reading, first };
    }
  }
  return found;
}

function judge(facts: Facts, sensor: Sensor): Verdict {
  const { opto } = sensor;
  const subject = part(opto.part.id);
  if (facts.solved.length === 0) return unknown(subject, 'the volts on its return could not be worked out');
  const lifted = worst(facts, sensor);
  if (!lifted) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [wire(lifted.loaded.id)],
    what: `The LED of ${called(opto)} returns over ${wireName(facts, lifted.loaded.id)}, which carries ${flowing(lifted.amp)} of something else: its ground stands ${two(lifted.volt)} V above the body (${STATE_WORDS[lifted.reading.state]}).`,
    todo: 'Give the LED’s return a wire of its own to the body.',
    figures: [
      { label: 'its ground is lifted by', value: lifted.volt, unit: 'V' },
      { label: 'in the shared wire', value: lifted.amp, unit: 'A' },
    ],
    state: lifted.reading.state,
    band: lifted.reading.band,
  });
}
