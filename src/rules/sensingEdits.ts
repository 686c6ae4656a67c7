import { wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import type { Edit, Plan } from '../plan/types.ts';
import { beside, end, newPart, newWire, railEnd, SHORT_M, type as typeIn } from './build.ts';
import { ohms } from './defineRule.ts';
import { insidePull, type PinUse } from './pins.ts';
import type { Sensor } from './sensing.ts';
import { pullOhm } from './sensingChoice.ts';
import type { Repair } from './types.ts';

/**
 * One external pull resistor with which both levels of a sensor's pin are sure, the pin's own pull switched off.
 * Null when no value serves or when several resistors share the work.
 */
export function pullRepair(sensor: Sensor): Repair | null {
  const ohm = pullOhm(sensor);
  const { output } = sensor;
  if (ohm === null || !output || output.pulls.length > 1) return null;
  const up = output.form === 'collector';
  const one = output.pulls[0];
  const off = pullOff(output.use, up ? 'up' : 'down');
  if (!one) return addPull(output.use, ohm, up);
  if (one.s.num('ohm') === ohm && !off) return null;
  return {
    title: `Make the pull-${up ? 'up' : 'down'} ${ohms(ohm)}${off ? ' and switch the pin’s own pull off' : ''}`,
    safe: true,
    edit: (plan) => {
      const draft = new Draft(plan);
      typeIn(draft, one.part.id, { ohm });
      if (off) typeIn(draft, output.use.computer.part.id, off);
      return draft.edit('repair.apply', 'Change the pull resistor');
    },
  };
}

/** The setting that switches the pin's own pull off; null when it is off. */
function pullOff(use: PinUse, way: 'up' | 'down'): Readonly<Record<string, string>> | null {
  return insidePull(use, way).least < (use.cell.fixedPullUpOhm ?? Number.POSITIVE_INFINITY) ? { [`gpio${use.gpio}Mode`]: 'in' } : null;
}

/** A new resistor from a pin to 3.3 V (or to 0 V), the pin's own pull off. */
export function addPull(use: PinUse, ohm: number, up: boolean): Repair {
  return {
    title: `Add a pull-${up ? 'up' : 'down'} of ${ohms(ohm)} to ${up ? '3.3 V' : '0 V'}`,
    safe: true,
    edit: (plan) => pullEdit(plan, use, ohm, up),
  };
}

function pullEdit(plan: Plan, use: PinUse, ohm: number, up: boolean): Edit | null {
  const computer = plan.parts[use.computer.part.id];
  const wire = wiresOn(plan, use.computer.part.id, `${use.cell.pin}`)[0];
  const rail = computer && railEnd(plan, computer.id, up ? '3V3' : 'GND', use.cell.pin);
  if (!computer || !wire || !rail) return null;
  const draft = new Draft(plan);
  const pull = newPart(draft, { kind: 'resistor', ...beside(computer, -130, 110), name: up ? 'Pull-up' : 'Pull-down', settings: { ohm } });
  // The header cell is taken by its one plug: join where that wire comes from.
  newWire(draft, end(pull, '1'), wire.from.part === computer.id ? wire.to : wire.from, { lengthM: SHORT_M });
  newWire(draft, end(pull, '2'), rail);
  typeIn(draft, computer.id, { [`gpio${use.gpio}Mode`]: 'in' });
  return draft.edit('repair.apply', `Add a pull-${up ? 'up' : 'down'}`);
}
