import type { Facts } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import type { Id } from '../../plan/types.ts';
import { DIODES, type DiodeType } from '../../trade/semiconductors.ts';
import { supplyCorners } from '../../trade/supply.ts';
import { beside, end, newPart, newWire, SHORT_M } from '../build.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { type LedCircuit, type Sensor, sensors } from '../sensing.ts';
import { hopsOf, partsOn } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('sense-led-unguarded', 'D4');
/** A diode in line must block the negative pulse of the vehicle's coils, V (ISO 7637-2 pulse 1, from memory). */
const BLOCKS_V = 200;

export const senseLedUnguarded = defineRule({
  id: 'sense-led-unguarded',
  code: 'D4',
  level: 'fault',
  title: 'The sensor’s LED has no reverse diode',
  why: 'When a coil on the same line is switched off, or the battery is joined backwards, the line goes far below zero. The LED stands only a few volts that way round.',
  source: { text: 'Reverse voltage 3 to 6 V of the sheets (read); negative pulse −150 V of ISO 7637-2 (from memory)', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    exposed(facts).map(({ sensor, led }) => {
      const subject = part(sensor.opto.part.id);
      if (guarded(facts, sensor, led)) return fine(subject);
      return found({
        level: 'fault',
        subject,
        related: [part(led.supply.view.part.id)],
        what: `The LED of ${called(sensor.opto)} stands ${sensor.data.reverseV} V the wrong way round, and ${called(led.supply.view)} can go to −${facts.corners.reverseV} V with the battery reversed and to −${-supplyCorners(facts.plan.vehicle.systemV, facts.plan.vehicle.dipLevel).pulse1V} V when a coil is switched off.`,
        todo: 'Put a 1N4148 across the LED, its ring (cathode) at the LED’s anode.',
        figures: [
          { label: 'LED stands in reverse', value: sensor.data.reverseV, unit: 'V' },
          { label: 'reversed battery', value: facts.corners.reverseV, unit: 'V' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const here = exposed(facts).find((x) => x.sensor.opto.part.id === finding.subject.id);
    // Without a resistor in line, or with a supply on the ground side, a diode across would carry what they give.
    return !here || here.led.resistors.length === 0 || fedBelow(facts, here.led) ? [] : [diodeAcross(finding.subject.id)];
  },
});

function exposed(facts: Facts): { sensor: Sensor; led: LedCircuit }[] {
  return sensors(facts).flatMap((sensor) => (sensor.led?.supply.vehicle ? [{ sensor, led: sensor.led }] : []));
}

/** Something that conducts from the LED's ground side to its line side, or something in line that blocks. */
function guarded(facts: Facts, sensor: Sensor, led: LedCircuit): boolean {
  const blocks = led.hops.some((h) => {
    const view = h.views[0]!;
    if (view.kind.kind === 'reverse-guard') return true;
    return h.link.type === 'diode' && view.kind.kind === 'diode' && DIODES[view.s.str('type') as DiodeType].reverseV >= BLOCKS_V;
  });
  if (blocks) return true;
  return [...led.below].some((net) =>
    (hopsOf(facts).get(net) ?? []).some((h) => h.link.type === 'diode' && h.forward && led.above.has(h.to) && h.views[0] !== sensor.opto),
  );
}

function fedBelow(facts: Facts, led: LedCircuit): boolean {
  return [...led.below].some((net) => partsOn(facts, net).some(({ view, terminal }) => view.facts.sources?.some((s) => s.terminal === terminal)));
}

function diodeAcross(id: Id): Repair {
  return {
    title: 'Put a 1N4148 across the LED',
    safe: true,
    edit: (plan) => {
      const opto = plan.parts[id];
      if (!opto) return null;
      const draft = new Draft(plan);
      const diode = newPart(draft, { kind: 'diode', ...beside(opto, -80, 10), turn: 3, name: 'Reverse diode', settings: { type: '1n4148' } });
      newWire(draft, end(diode, 'K'), end(opto.id, 'A'), { lengthM: SHORT_M });
      newWire(draft, end(diode, 'A'), end(opto.id, 'K'), { lengthM: SHORT_M });
      return draft.edit('repair.apply', 'Add the reverse diode');
    },
  };
}
