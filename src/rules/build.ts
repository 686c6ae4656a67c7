import { settingsOf } from '../parts/definePart.ts';
import { partKind } from '../parts/index.ts';
import { PAIRED_FORMS } from '../parts/types.ts';
import { wiresOfPart, wiresOn } from '../plan/connect.ts';
import type { Draft } from '../plan/draft.ts';
import { fresh, linked, type NewPart, type WireExtras } from '../plan/rows.ts';
import type { End, Id, Part, Plan, Values, Wire } from '../plan/types.ts';
import { isFitGround } from '../trade/grounds.ts';
import { GOOD_GPIOS, gpioPin, HEADER, nearestGrounds } from '../trade/header.ts';

/** A lead as short as it can be made, m. */
export const SHORT_M = 0.05;

export function newPart(draft: Draft, part: NewPart): Id {
  const id = draft.newId('p');
  draft.setPart(fresh(id, part));
  return id;
}

export function newWire(draft: Draft, from: End, to: End, extras: WireExtras = {}): Id {
  const id = draft.newId('w');
  draft.setWire(linked(id, from, to, extras));
  return id;
}

/** Types settings of a part that the draft may have changed already. */
export function type(draft: Draft, id: Id, settings: Values): void {
  const row = draft.part(id);
  if (row) draft.setPart({ ...row, settings: { ...row.settings, ...settings } });
}

export function end(part: Id, terminal: string): End {
  return { part, terminal };
}

export function sameEnd(a: End, b: End): boolean {
  return a.part === b.part && a.terminal === b.terminal;
}

/** The wire with one of its ends moved; bends and a typed length fell with the old place. */
export function movedEnd(wire: Wire, from: End, to: End, keepsLength = false): Wire {
  const { bends: _bends, lengthM, ...rest } = wire;
  const moved = sameEnd(wire.from, from) ? { ...rest, from: to } : { ...rest, to };
  return keepsLength && lengthM !== undefined ? { ...moved, lengthM } : moved;
}

/**
 * Where a new wire can join a rail of the computer: a free header cell, the nearest to a pin for 0 V; else a terminal that
 * hangs on such a cell and takes more than one wire. Null when there is neither.
 */
export function railEnd(plan: Plan, computer: Id, rail: '3V3' | 'GND', near: number): End | null {
  const cells = rail === 'GND' ? nearestGrounds(near) : HEADER.filter((p) => p.rail === rail).map((p) => p.pin);
  const free = cells.find((pin) => wiresOn(plan, computer, `${pin}`).length === 0);
  if (free !== undefined) return end(computer, `${free}`);
  for (const pin of cells) {
    for (const wire of wiresOn(plan, computer, `${pin}`)) {
      const there = wire.from.part === computer ? wire.to : wire.from;
      if (takesMore(plan, there)) return there;
    }
  }
  return null;
}

/** Does a terminal hold more than one wire? Header cells and plugs do not. */
function takesMore(plan: Plan, at: End): boolean {
  const part = plan.parts[at.part];
  if (!part) return false;
  const kind = partKind(part.kind);
  const form = kind.terminals(settingsOf(kind, part.settings)).find((t) => t.id === at.terminal)?.form;
  return form !== undefined && form !== 'header' && !PAIRED_FORMS.has(form);
}

/** Best free GPIO for a new job, as header pin; null when none is left. */
export function freePin(plan: Plan, computer: Id): { pin: number; gpio: number } | null {
  const row = plan.parts[computer];
  if (!row) return null;
  const s = settingsOf(partKind(row.kind), row.settings);
  const gpio = GOOD_GPIOS.find((g) => wiresOn(plan, computer, `${gpioPin(g).pin}`).length === 0 && g !== Math.round(s.num('powerOffPin')));
  return gpio === undefined ? null : { gpio, pin: gpioPin(gpio).pin };
}

/** A ground for something in a zone: our chassis ground there, else the converter's ground there, else any chassis ground of ours. */
export function groundEnd(plan: Plan, zone: Id): End | null {
  const bolts = Object.values(plan.parts).filter(
    (p) => p.kind === 'chassis-ground' && p.owner === 'build' && (p.settings.place === undefined || isFitGround(String(p.settings.place))),
  );
  const here = bolts.find((p) => p.zone === zone);
  if (here) return end(here.id, '31');
  const converter = Object.values(plan.parts).find((p) => p.kind === 'step-down' && p.zone === zone && wiresOn(plan, p.id, 'gnd').length > 0);
  if (converter) return end(converter.id, 'gnd');
  return bolts[0] ? end(bolts[0].id, '31') : null;
}

/** The only wire on a terminal; null when there is none or more than one. */
export function onlyWire(plan: Plan, part: Id, terminal: string): Wire | null {
  const wires = wiresOn(plan, part, terminal);
  return wires.length === 1 ? wires[0]! : null;
}

export function farEnd(wire: Wire, part: Id): End {
  return wire.from.part === part ? wire.to : wire.from;
}

/** A place beside a part where the drawing is likely free. */
export function beside(part: Part, dx: number, dy: number): { readonly zone: Id; readonly x: number; readonly y: number } {
  return { zone: part.zone, x: Math.max(0, part.x + dx), y: Math.max(0, part.y + dy) };
}

/** Has the part any wire? */
export function inUse(plan: Plan, id: Id): boolean {
  return wiresOfPart(plan, id).length > 0;
}

/**
 * A key sensor: resistor at the line, optocoupler with its reverse diode and pull-up at the computer.
 * @param line where the vehicle's line is joined
 * @returns false when the computer has no free cell or the plan no ground for it; the draft is then half written and must be dropped.
 */
export function addSensor(draft: Draft, line: End, computer: Part, pin: number, pinWire: Wire | null): boolean {
  const plan = draft.plan;
  const lineRow = draft.part(line.part);
  const ground = lineRow && groundEnd(plan, lineRow.zone);
  const rail = railEnd(plan, computer.id, '3V3', pin);
  const zero = railEnd(plan, computer.id, 'GND', pin);
  if (!lineRow || !ground || !rail || !zero) return false;
  const large = plan.vehicle.systemV === 24;
  const series = newPart(draft, {
    kind: 'resistor',
    ...beside(lineRow, 150, 60),
    name: 'Sense resistor',
    settings: large ? { ohm: 4700, ratedW: 0.5 } : { ohm: 2200 },
  });
  const opto = newPart(draft, { kind: 'optocoupler', ...beside(computer, -260, 120), name: 'Key sensor', settings: { type: '817a' } });
  const reverse = newPart(draft, { kind: 'diode', ...beside(computer, -360, 130), turn: 3, name: 'Reverse diode', settings: { type: '1n4148' } });
  const pull = newPart(draft, { kind: 'resistor', ...beside(computer, -130, 110), name: 'Pull-up', settings: { ohm: 10_000 } });
  newWire(draft, line, end(series, '1'), { lengthM: SHORT_M });
  newWire(draft, end(series, '2'), end(opto, 'A'));
  newWire(draft, end(reverse, 'K'), end(opto, 'A'), { lengthM: SHORT_M });
  newWire(draft, end(reverse, 'A'), end(opto, 'K'), { lengthM: SHORT_M });
  newWire(draft, end(opto, 'K'), ground);
  if (pinWire) draft.setWire({ ...movedEnd(pinWire, nearEnd(pinWire, line), end(opto, 'C')) });
  else newWire(draft, end(opto, 'C'), end(computer.id, `${pin}`));
  newWire(draft, end(pull, '1'), end(opto, 'C'), { lengthM: SHORT_M });
  newWire(draft, end(pull, '2'), rail);
  newWire(draft, end(opto, 'E'), zero);
  return true;
}

function nearEnd(wire: Wire, line: End): End {
  return sameEnd(wire.from, line) ? wire.from : wire.to;
}
