import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { Draft } from '../plan/draft.ts';
import type { End } from '../plan/types.ts';
import { end, farEnd, movedEnd, onlyWire, sameEnd } from './build.ts';
import { called } from './defineRule.ts';
import { fusedLine } from './keyLine.ts';
import type { Sensor } from './sensing.ts';
import { netAt } from './trace.ts';
import type { Repair } from './types.ts';

/**
 * Moves a sensor to the first of these feeds that has a fuse: what is joined to the line (the first resistor seen from it,
 * else the LED) goes behind that fuse. Empty when none has, or when more than one wire leaves the line there.
 */
export function senseInstead(facts: Facts, sensor: Sensor, feeds: readonly PartView[]): Repair[] {
  const { led } = sensor;
  const at = lineEnd(facts, sensor);
  const wire = at && onlyWire(facts.plan, at.part, at.terminal);
  if (!led || !wire) return [];
  for (const feed of feeds) {
    const to = feed === led.supply.view ? null : fusedLine(facts, feed);
    if (!to) continue;
    return [
      {
        title: `Sense ${called(feed)} instead`,
        safe: false,
        edit: (plan) => {
          const row = plan.wires[wire.id];
          if (!row || sameEnd(farEnd(row, at.part), to)) return null;
          const draft = new Draft(plan);
          draft.setWire(movedEnd(row, farEnd(row, at.part), end(to.part, to.terminal)));
          return draft.edit('repair.apply', 'Sense another line');
        },
      },
    ];
  }
  return [];
}

/** What of a sensor is joined to the line that it watches: the first resistor seen from there, else its LED. Null when nothing is. */
export function lineEnd(facts: Facts, { opto, led }: Sensor): End | null {
  if (!led) return null;
  const first = led.resistors[0] ?? opto;
  if (first === opto) return end(opto.part.id, 'A');
  const next = led.hops.find((h) => h.views.includes(first))?.to;
  const terminal = ['1', '2'].find((t) => led.above.has(netAt(facts, first, t)) && next === netAt(facts, first, t));
  return terminal === undefined ? null : end(first.part.id, terminal);
}
