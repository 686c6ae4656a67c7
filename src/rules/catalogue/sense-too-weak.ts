import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { OPTOS } from '../../trade/semiconductors.ts';
import { amps, called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { leastLedA, neededA, type Sensor, sensors, sureA } from '../sensing.ts';
import { betterType, largestOhm, levels, sureOf } from '../sensingChoice.ts';
import { pullRepair } from '../sensingEdits.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('sense-too-weak', 'D2');

export const senseTooWeak = defineRule({
  id: 'sense-too-weak',
  code: 'D2',
  level: 'fault',
  title: 'Key sensor cannot move its pin on a weak battery',
  why: 'An old, hot sensor passes on only a part of its LED’s current. If that is less than the pull-up asks for, the pin hangs between its levels and the computer reads the key at random.',
  source: {
    text: 'Least transfer ratio and forward voltage of the sheets (read); 0.7 for age and 0.7 for heat, and the loss at small currents, from practice',
    grade: 'data sheet',
  },
  needs: 'graph',
  check: (facts) =>
    weighed(facts).map((w) => {
      const subject = part(w.sensor.opto.part.id);
      if (w.sure >= w.needed) return fine(subject);
      const { led, output } = w.sensor;
      return found({
        level: 'fault',
        subject,
        related: [...led!.resistors.map((r) => part(r.part.id)), ...output!.pulls.map((p) => part(p.part.id)), wire(output!.use.wire.id)],
        what: `At ${volts(led!.supply.loV)} the LED of ${called(w.sensor.opto)} gets ${amps(w.ledA)}, which is sure of ${amps(w.sure)} at its output after years and in the heat. To pull GPIO ${output!.use.gpio} ${levels(output!.form).lit} against ${ohms(output!.leastPullOhm)} it needs ${amps(w.needed)}.`,
        todo: 'Fit an optocoupler with a higher transfer ratio, a larger pull-up, or a smaller sense resistor.',
        figures: [
          { label: 'LED current', value: w.ledA, unit: 'A' },
          { label: 'sure output current', value: w.sure, unit: 'A' },
          { label: 'needed', value: w.needed, unit: 'A' },
        ],
        state: 'RUN_STOPPED',
        band: 'low',
      });
    }),
  repair: (finding, facts) => {
    const w = weighed(facts).find((x) => x.sensor.opto.part.id === finding.subject.id);
    if (!w) return [];
    const repairs: Repair[] = [];
    const type = betterType(w.sensor);
    if (type)
      repairs.push({ title: `Fit an optocoupler ${OPTOS[type].title}`, safe: true, edit: (plan) => setSettings(plan, w.sensor.opto.part.id, { type }) });
    const pull = pullRepair(w.sensor);
    if (pull) repairs.push(pull);
    const ohm = largestOhm(facts, w.sensor.opto);
    const only = w.sensor.led!.resistors.length === 1 ? w.sensor.led!.resistors[0] : undefined;
    if (only && ohm !== null && ohm < only.s.num('ohm') && sureOf(w.sensor, { mostOhm: ohm * (1 + only.s.num('tol')) })) {
      repairs.push({ title: `Make ${called(only)} ${ohms(ohm)}`, safe: false, edit: (plan) => setSettings(plan, only.part.id, { ohm }) });
    }
    return repairs;
  },
});

function weighed(facts: Facts): { sensor: Sensor; ledA: number; sure: number; needed: number }[] {
  return sensors(facts).flatMap((sensor) => {
    const { led, output, data } = sensor;
    if (!led || !output || !Number.isFinite(output.leastPullOhm) || !Number.isFinite(led.mostOhm) || led.mostOhm === 0) return [];
    const ledA = leastLedA(led, data, led.mostOhm);
    return [{ sensor, ledA, sure: sureA(data, ledA), needed: neededA(output.form, output.use, output.leastPullOhm) }];
  });
}
