import { makeFacts } from '../analysis/facts.ts';
import type { Facts } from '../analysis/factsTypes.ts';
import { type Account, account, type ChecklistMoment } from '../rules/account/index.ts';
import type { Context } from './context.ts';

/** Lines that are looked at in one go. */
export interface ChecklistGroup {
  readonly title: string;
  readonly lines: readonly string[];
}

const MOMENTS: readonly (readonly [ChecklistMoment, string])[] = [
  ['before', 'Before starting'],
  ['wiring', 'While wiring'],
  ['closing', 'Before closing up'],
  ['handing over', 'Before handing over'],
];

/** What no drawing can show, to be looked at by hand: lines of the catalogue and general ones, by when they are looked at. */
export function checklistGroups(context: Context): ChecklistGroup[] {
  const lines = [...generalLines(context), ...catalogueLines(account, () => makeFacts(context.plan, context.results.analysis))];
  return MOMENTS.flatMap(([when, title]) => {
    const mine = [...new Set(lines.filter((l) => l.when === when).map((l) => l.line))];
    return mine.length === 0 ? [] : [{ title, lines: mine }];
  });
}

interface ChecklistLine {
  readonly when: ChecklistMoment;
  readonly line: string;
}

/** Lines of the catalogue that this plan has a use for. One whose question fails is rather printed than lost. */
export function catalogueLines(entries: readonly Account[], factsOf: () => Facts): ChecklistLine[] {
  let facts: Facts | undefined;
  return entries.filter((entry) => {
    if (entry.how !== 'checklist') return false;
    if (!entry.applies) return true;
    try {
      facts ??= factsOf();
      return entry.applies(facts);
    } catch {
      return true;
    }
  }) as (Account & ChecklistLine)[];
}

/** Lines that belong to no entry of the catalogue. Common practice, no source. */
function generalLines(context: Context): ChecklistLine[] {
  const kinds = new Set(context.ours.map((v) => v.kind.kind));
  const zones = new Set(context.ours.map((v) => context.plan.zones[v.part.zone]?.kind));
  const has = (...names: string[]): boolean => names.some((n) => kinds.has(n));
  const lines: readonly (readonly [ChecklistMoment, string, boolean?])[] = [
    ['wiring', 'A rubber grommet wherever a wire passes sheet metal; the hole deburred and painted.'],
    ['wiring', 'Every wire held at least every 300 mm, 60 mm before each part; no wire holds up a part.'],
    ['closing', 'No wire within reach of steering column, pedals, seat rails, handbrake, hinges, heater box or sharp edges, in any seat position.'],
    ['closing', 'Nothing mounted or routed where an airbag or a belt tensioner unfolds, and nothing that a head or a knee can meet.'],
    ['wiring', 'Only black or grey tube and tape: yellow and orange are kept for restraint and high-voltage wiring.'],
    ['wiring', 'Every wire carries its number at both ends; every fuse its rating and what it feeds, beside the holder.'],
    ['wiring', 'Every crimp made with the die that belongs to the terminal; no solder joint where a wire bends or shakes.'],
    ['closing', 'A drip loop before each box, terminals facing down, and nothing below a window channel or a heater hose joint.'],
    ['wiring', 'Ground rings on bare metal with a toothed washer, bolt tightened, then greased or painted; no more than three rings on a bolt.'],
    ['closing', 'Boxes fixed with metal screws or straps, so that nothing flies loose in a crash; room for air around what gets warm.'],
    ['handing over', 'A spare fuse of each rating lies in the vehicle.', has('blade-fuse')],
    [
      'wiring',
      'Polarity of every clamp, diode and capacitor seen, not assumed: the stripe is where the drawing has it.',
      has('surge-clamp', 'capacitor', 'diode', 'reverse-guard'),
    ],
    ['wiring', 'Pin 1 of the header found and marked; nothing on a pin that the list says is free.', has('computer')],
    [
      'handing over',
      'The screen hides no lamp, gauge or switch, does not shine into the eyes at night, and shows the driver nothing that distracts.',
      has('touch-display'),
    ],
    ['handing over', 'A camera picture is an aid: look over the shoulder as before.', has('camera')],
    ['closing', 'Switches reachable without leaning, labelled, and not to be hit by a knee.', has('master-switch', 'push-button')],
    [
      'closing',
      'In the engine bay: conduit, 125 °C insulation near the engine, no box on the engine itself, slack for engine movement.',
      zones.has('engine-bay') || crosses(context, 'engine-bay'),
    ],
    ['closing', 'Behind headlining and pillar trim: cable clear of curtain airbags, clips put back as they were.', zones.has('roof')],
    ['closing', 'Outside: sealed connectors, glands facing down, a drain hole at the lowest point of each box.', zones.has('outside')],
  ];
  return lines.filter(([, , shown]) => shown !== false).map(([when, line]) => ({ when, line }));
}

/** Does a wire of the build end in a zone of that kind? */
function crosses(context: Context, kind: string): boolean {
  return context.wires.some((w) => [w.from, w.to].some((e) => context.plan.zones[context.views.get(e.part)?.part.zone ?? '']?.kind === kind));
}

/** What this sheet never looks at, whatever the plan. */
export const NOT_LOOKED_AT: readonly string[] = [
  'Cable ways as built, chafing, strain, corrosion, the quality of joints: see the checklist.',
  'The vehicle’s own circuits beyond the taps, its bus and control units, and whether they mind a tap.',
  'Radio interference, in either direction, beyond the placing of parts.',
  'Type approval, road and workplace rules, insurance, and what the vehicle maker allows.',
  'The software that runs on the computer.',
  'Whatever was typed in wrongly: figures are worked out from the plan as entered.',
];
