import type { Facts } from '../../analysis/factsTypes.ts';
import { boardOf } from '../../parts/computer/settings.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { gpioPin } from '../../trade/header.ts';
import { LOGIC } from '../../trade/logic.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { type KeySense, keySenses } from '../keySense.ts';

const { fine, found, unknown } = verdicts('sense-level-reversed', 'D14');
type Level = 'low' | 'high';

export const senseLevelReversed = defineRule({
  id: 'sense-level-reversed',
  code: 'D14',
  level: 'fault',
  title: 'The program expects the key the other way round',
  why: 'An optocoupler to ground turns the signal over: key on, pin low. A program that takes low for “off” stops the computer as soon as the key is on, and never when it goes off.',
  source: { text: 'Follows from the circuit as drawn; levels of the board maker’s pin tables (read)', grade: 'data sheet' },
  needs: 'readings',
  explains: ['sense-never-falls', 'power-gone-too-soon'],
  check: (facts) =>
    watched(facts).map((sense) => {
      const subject = part(sense.computer.part.id);
      const level = levelOn(facts, sense);
      if (level === null) return unknown(subject, `which level GPIO ${sense.gpio} has with the key on could not be worked out`);
      if (sense.computer.s.str('senseActive') === `${level}-when-on`) return fine(subject);
      const other = level === 'low' ? 'high' : 'low';
      return found({
        level: 'fault',
        subject,
        related: sense.sensor ? [part(sense.sensor.opto.part.id)] : [],
        what: `With the key on GPIO ${sense.gpio} of ${called(sense.computer)} is ${level}, and its program takes ${other} for “key on”: it stops while somebody drives.`,
        todo: `Set the program to “${level} with the key on”.`,
      });
    }),
  repair: (finding, facts) => {
    const sense = watched(facts).find((s) => s.computer.part.id === finding.subject.id);
    const level = sense && levelOn(facts, sense);
    if (!sense || !level) return [];
    return [
      {
        title: `Set the program to “${level} with the key on”`,
        safe: true,
        edit: (plan) => setSettings(plan, sense.computer.part.id, { senseActive: `${level}-when-on` }),
      },
    ];
  },
});

/** Key pins that something of the vehicle moves, over an optocoupler or over resistors. */
function watched(facts: Facts): KeySense[] {
  return keySenses(facts).filter(
    ({ computer, gpio, sensor }) => sensor?.output || facts.sourcesFor(`${computer.part.id}.${gpioPin(gpio).pin}`).some((s) => s.source.kind === 'feed'),
  );
}

/** The pin's level with the ignition on: by the sensor's form, else as solved. Null when neither tells. */
function levelOn(facts: Facts, { computer, gpio, sensor }: KeySense): Level | null {
  if (sensor?.output) return sensor.output.form === 'collector' ? 'low' : 'high';
  const { vIlMaxV, vIhMinV } = LOGIC[boardOf(computer.s).logic];
  const volt = facts.across(`${computer.part.id}.${gpioPin(gpio).pin}`, `${computer.part.id}.6`, 'RUN_CHARGING', 'typical');
  if (volt === null) return null;
  return volt <= vIlMaxV ? 'low' : volt >= vIhMinV ? 'high' : null;
}
