import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { Draft } from '../plan/draft.ts';
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
  if (!led) return [];
  const first = led.resistors[0] ?? sensor.opto;
  const towardsLine = (t: string): boolean => led.hops.find((h) => h.views.includes(first))?.to === netAt(facts, first, t);
  const terminal = first === sensor.opto ? 'A' : ['1', '2'].find((t) => led.above.has(netAt(facts, first, t)) && towardsLine(t));
  const wire = terminal === undefined ? null : onlyWire(facts.plan, first.part.id, terminal);
  if (!wire) return [];
  for (const feed of feeds) {
    const to = feed === led.supply.view ? null : fusedLine(facts, feed);
    if (!to) continue;
    return [
      {
        title: `Sense ${called(feed)} instead`,
        safe: false,
        edit: (plan) => {
          const row = plan.wires[wire.id];
          if (!row || sameEnd(farEnd(row, first.part.id), to)) return null;
          const draft = new Draft(plan);
          draft.setWire(movedEnd(row, farEnd(row, first.part.id), end(to.part, to.terminal)));
          return draft.edit('repair.apply', 'Sense another line');
        },
      },
    ];
  }
  return [];
}
