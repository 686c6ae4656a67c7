import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { OPTOS } from '../../trade/semiconductors.ts';
import { amps, called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { restingV, type Sensor, sensors } from '../sensing.ts';
import { betterType, levels } from '../sensingChoice.ts';
import { pullRepair } from '../sensingEdits.ts';

const { fine, found } = verdicts('sense-drifts-when-hot', 'D5');

export const senseDriftsWhenHot = defineRule({
  id: 'sense-drifts-when-hot',
  code: 'D5',
  level: 'fault',
  title: 'Key sensor drifts when hot',
  why: 'A hot transistor leaks even with its LED dark, twice as much every 10 K. Behind a weak pull-up that leak drags the pin down, and the computer believes that the key is on.',
  source: {
    text: 'Dark current of the sheets (read), doubling each 10 K (practice); leakage and levels of the board maker’s tables (read)',
    grade: 'data sheet',
  },
  needs: 'graph',
  check: (facts) =>
    resting(facts).map(({ sensor, output, rest }) => {
      const subject = part(sensor.opto.part.id);
      if (rest.holds) return fine(subject);
      const { dark } = levels(output.form);
      return found({
        level: 'fault',
        subject,
        related: [...output.pulls.map((p) => part(p.part.id)), wire(output.use.wire.id)],
        what: `At ${sensor.opto.maxC} °C ${called(sensor.opto)} and GPIO ${output.use.gpio} leak ${amps(rest.leakA)} with the LED dark. Over ${ohms(output.mostPullOhm)} that leaves the pin at ${volts(Math.max(0, rest.volt))}; it must ${output.form === 'collector' ? 'stay above' : 'stay below'} ${volts(rest.limitV)} to read ${dark}.`,
        todo: 'Fit a smaller pull-up to 3.3 V, and an optocoupler that can still pull it down.',
        figures: [
          { label: 'leak', value: rest.leakA, unit: 'A' },
          { label: 'resting level', value: Math.max(0, rest.volt), unit: 'V' },
          { label: 'limit', value: rest.limitV, unit: 'V' },
        ],
        state: 'OFF_AWAKE',
        band: 'low',
      });
    }),
  repair: (finding, facts) => {
    const here = resting(facts).find((r) => r.sensor.opto.part.id === finding.subject.id);
    if (!here) return [];
    const pull = pullRepair(here.sensor);
    if (pull) return [pull];
    const type = betterType(here.sensor);
    return type
      ? [{ title: `Fit an optocoupler ${OPTOS[type].title}`, safe: true, edit: (plan) => setSettings(plan, here.sensor.opto.part.id, { type }) }]
      : [];
  },
});

function resting(facts: Facts) {
  return sensors(facts).flatMap((sensor: Sensor) => {
    const { output } = sensor;
    // With no pull at all the pin hangs free, which is another rule's.
    if (!output || !Number.isFinite(output.mostPullOhm)) return [];
    return [{ sensor, output, rest: restingV(output.form, output.use, sensor.data, sensor.opto.maxC, output.mostPullOhm) }];
  });
}
