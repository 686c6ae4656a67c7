import { wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import type { Edit, Id, Plan } from '../plan/types.ts';
import { beside, end, movedEnd, newPart, newWire, railEnd, SHORT_M } from './build.ts';

/** Puts a resistor into a pin's wire at the board, and a capacitor from the pin to 0 V; null when the plan no longer fits. */
export function filterPin(plan: Plan, computer: Id, pin: number, ohm: number, farad: number): Edit | null {
  const row = plan.parts[computer];
  const wire = wiresOn(plan, computer, `${pin}`)[0];
  const zero = railEnd(plan, computer, 'GND', pin);
  if (!row || !wire || !zero) return null;
  const draft = new Draft(plan);
  const series = newPart(draft, { kind: 'resistor', ...beside(row, -130, 60), name: 'Filter resistor', settings: { ohm } });
  const cap = newPart(draft, {
    kind: 'capacitor',
    ...beside(row, -130, 160),
    name: 'Pin filter',
    settings: { farad, ratedV: 50, esrOhm: 0.02, polarised: false },
  });
  const cell = end(computer, `${pin}`);
  draft.setWire(movedEnd(wire, cell, end(series, '1'), true));
  newWire(draft, end(series, '2'), cell, { lengthM: SHORT_M });
  newWire(draft, end(cap, '+'), end(series, '2'), { lengthM: SHORT_M });
  newWire(draft, end(cap, '-'), zero, { lengthM: SHORT_M });
  return draft.edit('repair.apply', 'Filter a pin');
}
