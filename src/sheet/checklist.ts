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

interface GeneralLine extends ChecklistLine {
  /** Printed only where the plan has what it speaks of; absent = always. */
  readonly shown?: boolean;
}

/** Habits of the trade, and what rules can judge only where somebody has told the plan. Common practice, no source. */
function generalLines(context: Context): GeneralLine[] {
  const kinds = new Set(context.ours.map((v) => v.kind.kind));
  const zones = new Set(context.ours.map((v) => context.plan.zones[v.part.zone]?.kind));
  const has = (...names: string[]): boolean => names.some((n) => kinds.has(n));
  const lines: readonly GeneralLine[] = [
    { when: 'before', line: 'Lay out parts, wire and tools, and read the cautions on the first page once more.' },
    { when: 'wiring', line: 'Hold every wire at least every 300 mm, and 60 mm before each part; let no wire hold up a part.' },
    { when: 'wiring', line: 'Use only black or grey tube and tape: yellow and orange are kept for restraint and high-voltage wiring.' },
    { when: 'wiring', line: 'Set ground rings on bare metal with a toothed washer, tighten, then grease or paint; no more than three rings on a bolt.' },
    {
      when: 'wiring',
      line: 'See the polarity of every clamp, diode and capacitor, do not assume it: the stripe is where the drawing has it.',
      shown: has('surge-clamp', 'capacitor', 'diode', 'reverse-guard'),
    },
    { when: 'wiring', line: 'Find and mark pin 1 of the header; leave free what the list says is free.', shown: has('computer') },
    { when: 'closing', line: 'Mount or route nothing where an airbag or a belt tensioner unfolds, and nothing that a head or a knee can meet.' },
    {
      when: 'closing',
      line: 'Leave no power bank and no lithium cell behind the dash, in the sun or where a crash would crush it: above 60 °C they swell and may burn.',
      shown: has('computer'),
    },
    { when: 'closing', line: 'Leave a drip loop before each box, terminals facing down, and nothing below a window channel or a heater hose joint.' },
    {
      when: 'closing',
      line: 'In the engine bay: conduit, 125 °C insulation near the engine, no box on the engine itself, slack for engine movement.',
      shown: zones.has('engine-bay') || endsIn(context, 'engine-bay'),
    },
    { when: 'closing', line: 'Behind headlining and pillar trim: keep cable clear of curtain airbags, put clips back as they were.', shown: zones.has('roof') },
    { when: 'closing', line: 'Outside: sealed connectors, glands facing down, a drain hole at the lowest point of each box.', shown: zones.has('outside') },
    { when: 'handing over', line: 'Leave a spare fuse of each rating in the vehicle.', shown: has('blade-fuse') },
  ];
  return lines.filter((line) => line.shown !== false);
}

/** Does a wire of the build end in a zone of that kind? */
function endsIn(context: Context, kind: string): boolean {
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
