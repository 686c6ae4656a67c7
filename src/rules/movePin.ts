import type { Facts } from '../analysis/factsTypes.ts';
import { nextFreePin } from '../analysis/freePins.ts';
import { wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import type { Edit, Id, Plan, Value } from '../plan/types.ts';
import type { HeaderPin } from '../trade/header.ts';
import { end } from './build.ts';
import type { PinUse } from './pins.ts';
import type { Repair } from './types.ts';

/** Moves what is on a pin (or only these wires of it) to the next free pin that fits, with the mode typed for it; null when none is free. */
export function movePin(facts: Facts, use: PinUse, only?: ReadonlySet<Id>, fits?: (pin: HeaderPin) => boolean): Repair | null {
  const free = nextFreePin(facts.plan, use.computer.part.id, fits);
  if (!free) return null;
  return { title: `Move it to GPIO ${free.gpio} (pin ${free.pin})`, safe: true, edit: (plan) => moved(plan, use, only, fits) };
}

function moved(plan: Plan, use: PinUse, only: ReadonlySet<Id> | undefined, fits: ((pin: HeaderPin) => boolean) | undefined): Edit | null {
  const id = use.computer.part.id;
  const free = nextFreePin(plan, id, fits);
  const computer = plan.parts[id];
  const wires = wiresOn(plan, id, `${use.cell.pin}`).filter((w) => !only || only.has(w.id));
  if (!free || !computer || wires.length === 0) return null;
  const draft = new Draft(plan);
  const there = end(id, `${free.pin}`);
  for (const wire of wires) {
    const { bends: _bends, ...row } = wire;
    draft.setWire(row.from.part === id && row.from.terminal === `${use.cell.pin}` ? { ...row, from: there } : { ...row, to: there });
  }
  if (!only) draft.setPart({ ...computer, settings: settingsMoved(computer.settings, use.gpio, free.gpio) });
  return draft.edit('repair.apply', `Move to GPIO ${free.gpio}`);
}

/** What was typed for the old pin is typed for the new one. */
function settingsMoved(settings: Readonly<Record<string, Value>>, from: number, to: number): Readonly<Record<string, Value>> {
  const { [`gpio${from}Mode`]: mode, ...rest } = settings;
  const next: Record<string, Value> = { ...rest };
  if (mode !== undefined) next[`gpio${to}Mode`] = mode;
  if (next.senseGpio === from) next.senseGpio = to;
  return next;
}
