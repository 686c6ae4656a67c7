import type { PartView } from '../../analysis/factsTypes.ts';
import { KEY_POSITIONS } from '../../analysis/types.ts';
import { wiresAt } from '../../plan/connect.ts';
import type { Id } from '../../plan/types.ts';
import { BOARDS } from '../../trade/boards.ts';
import { LOGIC } from '../../trade/logic.ts';
import { type Context, numberOf } from '../context.ts';
import { volts } from '../figures.ts';

/** One thing to measure, with what this plan says it will read. */
export interface Check {
  readonly measure: string;
  readonly expected: string;
}

const IGNITION = KEY_POSITIONS.findIndex((k) => k.key === 'Ignition');
/** Parts that a signal passes on its way from a pin to a button. */
const PASSES = new Set(['resistor', 'splice', 'terminal-strip', 'connector', 'choke']);

/** Optocouplers: volts across the resistor ahead of the lamp, and the output with the key on and just off. */
export function sensingChecks(context: Context): Check[] {
  return context.ours
    .filter((v) => v.kind.kind === 'optocoupler')
    .flatMap((opto) => {
      const id = opto.part.id;
      const checks: Check[] = [];
      const resistor = neighbours(context, id).find((v) => v.kind.kind === 'resistor' && Math.abs(acrossLink(context, v)) > 1);
      if (resistor) checks.push({ measure: `${resistor.item} ${resistor.name}, across, Ignition`, expected: volts(Math.abs(acrossLink(context, resistor))) });
      for (const { key, state } of KEY_POSITIONS) {
        if (key !== 'Ignition' && key !== 'Held') continue;
        const v = context.volts(id, 'C', state, 'typical') - context.volts(id, 'E', state, 'typical');
        checks.push({ measure: `${opto.item} ${opto.name}: output, ${key}`, expected: volts(v) });
      }
      return checks;
    });
}

function acrossLink(context: Context, view: PartView): number {
  const link = view.facts.links?.find((l) => l.type === 'resistor');
  if (!link) return 0;
  const v = context.volts(view.part.id, link.a, 'RUN_STOPPED', 'typical') - context.volts(view.part.id, link.b, 'RUN_STOPPED', 'typical');
  return Number.isNaN(v) ? 0 : v;
}

function neighbours(context: Context, id: Id): PartView[] {
  const wires = wiresAt(context.plan).byPart.get(id) ?? [];
  return wires.flatMap((w) => context.views.get(w.from.part === id ? w.to.part : w.from.part) ?? []);
}

/** Used pins of the header: volts with nothing pressed; for a button also what pressing must bring. */
export function pinChecks(context: Context): Check[] {
  return context.results.analysis.pins.flatMap((pin) => {
    if (pin.gpio === null || pin.wire === null || context.views.get(pin.part)?.part.owner !== 'build') return [];
    const name = `${context.label(pin.part)}, pin ${pin.pin} (GPIO ${pin.gpio}${pin.label === '' ? '' : `, ${pin.label}`})`;
    const open = volts(pin.volts[IGNITION] ?? Number.NaN);
    if (!leadsToButton(context, pin.part, String(pin.pin))) return [{ measure: name, expected: open }];
    return [
      { measure: `${name}: not pressed`, expected: open },
      { measure: `${name}: pressed`, expected: `below ${volts(lowLimit(context.views.get(pin.part)))}` },
    ];
  });
}

/** The highest voltage that the computer surely reads as low, V. */
function lowLimit(view: PartView | undefined): number {
  const board = view?.kind.settings.some((s) => s.key === 'board') ? view.s.str('board') : '';
  const logic = Object.entries(BOARDS).find(([key]) => key === board)?.[1].logic ?? 'unknown';
  return LOGIC[logic].vIlMaxV;
}

/** Is a push-button reached from this pin over wires and parts that a signal passes? */
function leadsToButton(context: Context, computer: Id, pin: string): boolean {
  const index = wiresAt(context.plan);
  const seen = new Set<Id>([computer]);
  const open: Id[] = [];
  const look = (part: Id, wires: readonly { from: { part: Id }; to: { part: Id } }[]): void => {
    for (const w of wires) {
      const next = w.from.part === part ? w.to.part : w.from.part;
      if (!seen.has(next)) {
        seen.add(next);
        open.push(next);
      }
    }
  };
  look(computer, index.byTerminal.get(`${computer}.${pin}`) ?? []);
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const kind = context.views.get(id)?.kind.kind ?? '';
    if (kind === 'push-button') return true;
    if (PASSES.has(kind)) look(id, index.byPart.get(id) ?? []);
  }
  return false;
}

/** How long the computer needs after key-off, and how long its power stays. */
export function timingChecks(context: Context): Check[] {
  const checks: Check[] = [];
  for (const view of context.ours) {
    const needS = ['filterS', 'appS', 'osS'].reduce((sum, key) => sum + numberOf(view, key, 0), 0);
    if (view.kind.kind === 'computer' && needS > 0) {
      checks.push({ measure: `${view.item} ${view.name}: key off until stopped`, expected: `not more than ${Math.round(needS)} s` });
    }
    const holdS = numberOf(view, 'holdS', 0);
    if (holdS > 0) {
      const leastS = Math.floor(holdS * (1 - numberOf(view, 'holdTol', 0)));
      checks.push({ measure: `${view.item} ${view.name}: key off until its power goes`, expected: `not less than ${leastS} s` });
    }
  }
  return checks;
}
