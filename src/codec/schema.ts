import { z } from 'zod';
import type { PartKind } from '../parts/types.ts';
import { LONGEST, MOST_SERIAL, RANGES, type Range } from '../plan/limits.ts';
import type { Band, ColourCode, DipLevel, Stage, VehicleState, ZoneKind } from '../plan/types.ts';
import { settingsSchema, terminalNotes } from './settings.ts';

/** Format version that this edition writes. */
export const CURRENT_VERSION = 1;

// Typed as complete records, so that a word added in trade/ and forgotten here does not compile.
const keysOf = <K extends string>(record: Record<K, true>): K[] => Object.keys(record) as K[];
const STATES = keysOf<VehicleState>({
  ISOLATED: true,
  OFF_ASLEEP: true,
  OFF_AWAKE: true,
  ACC: true,
  RUN_STOPPED: true,
  START: true,
  RUN_CHARGING: true,
  RETAIN: true,
  RETAIN_DOOR: true,
  AUTO_STOP: true,
  AUTO_CRANK: true,
  REMOTE_RUN: true,
  PARKED_CHARGE: true,
  ISOLATED_RUNNING: true,
});
const ZONE_KINDS = keysOf<ZoneKind>({
  'engine-bay': true,
  dash: true,
  'dash-top': true,
  'under-seat': true,
  console: true,
  roof: true,
  'load-bay': true,
  desk: true,
  outside: true,
});
const COLOURS = keysOf<ColourCode>({ BK: true, BN: true, RD: true, OG: true, YE: true, GN: true, BU: true, VT: true, GY: true, WH: true, PK: true, TQ: true });
const DIP_LEVELS = keysOf<DipLevel>({ I: true, II: true, III: true, IV: true });
const STAGES = keysOf<Stage>({ find: true, draw: true, buy: true, wire: true, test: true, software: true, keep: true });
const BANDS = keysOf<Band>({ low: true, typical: true, high: true });

const say = (description: string) => ({ description });
const thresholds = z.record(z.string().max(100), z.number());
/** No dot and no colon: readings are keyed `part.terminal` and `part:element`. */
const id = z.string().regex(/^[A-Za-z][A-Za-z0-9_-]{0,31}$/);
const note = z.string().max(LONGEST.note);
const within = (range: Range) =>
  (range.whole ? z.int() : z.number())
    .min(range.min)
    .max(range.max)
    .meta(range.unit === '' ? {} : { 'x-unit': range.unit });
const owner = z.enum(['vehicle', 'build']).meta(say('Whether the vehicle has it already or the build brings it.'));
const known = z.enum(['yes', 'no', 'unknown']);
const place = within(RANGES.parts.x);
const colour = z.enum(COLOURS).meta(say('Letters of IEC 60757.'));

const volts = z.strictObject(Object.fromEntries(BANDS.map((b) => [b, within(RANGES.supply.supplyV)])) as Record<Band, z.ZodNumber>);
const vehicle = z.strictObject({
  name: z.string().max(LONGEST.vehicleName),
  systemV: z.literal([12, 24]).meta({ 'x-unit': 'V' }),
  polarity: z.enum(['negative-ground', 'positive-ground', 'unknown']),
  batteryAh: within(RANGES.vehicle.batteryAh),
  centralClamping: known.meta(say('Load dump clamped inside the alternator.')),
  dipLevel: z.enum(DIP_LEVELS).meta(say('Cranking dip level of ISO 16750-2 to design for.')),
  parkedA: within(RANGES.vehicle.parkedA).describe('Draw of the sleeping vehicle itself.'),
  standingDays: within(RANGES.vehicle.standingDays).describe('Days the vehicle is meant to stand.'),
  stopStart: z.boolean(),
  remoteStart: z.boolean(),
  electrified: z.boolean(),
  isolator: z.boolean(),
  parkedC: within(RANGES.vehicle.parkedC).describe('Mean temperature of the battery while the vehicle stands.').exactOptional(),
  engineOffH: within(RANGES.vehicle.engineOffH).describe('Hours for which the build is used with the engine off, at the most.').exactOptional(),
  batterySensor: known.meta(say('Whether a current sensor sits on the negative post of the battery.')).exactOptional(),
  supplyV: z.partialRecord(z.enum(STATES), volts).exactOptional().meta(say('Supply voltages measured at this vehicle; absent states come from the table.')),
});

const zone = z.strictObject({
  id,
  name: z.string().min(1).max(LONGEST.name),
  kind: z.enum(ZONE_KINDS),
  order: within(RANGES.zones.order).meta(say('Place from left to right on the drawing.')),
  width: within(RANGES.zones.width).nullable().meta(say('Drawing units; null = as wide as its parts need.')),
  maxC: within(RANGES.zones.maxC).exactOptional(),
  minC: within(RANGES.zones.minC).exactOptional(),
  bag: known.meta(say('Whether an airbag or a belt tensioner unfolds through here.')).exactOptional(),
});

const run = z.strictObject({
  id,
  a: id,
  b: id,
  lengthM: within(RANGES.runs.lengthM),
  moving: z.enum(['hinge', 'tilt']).meta(say('What bends here each time: a hinge, or a cab or column that tilts; absent = nothing moves.')).exactOptional(),
});

const end = z.strictObject({ part: id, terminal: z.string().min(1).max(32) });
const wire = z.strictObject({
  id,
  owner,
  from: end,
  to: end,
  number: within(RANGES.wires.number).exactOptional(),
  areaMm2: within(RANGES.wires.areaMm2).exactOptional(),
  colour: colour.exactOptional(),
  stripe: colour.exactOptional(),
  lengthM: within(RANGES.wires.lengthM).exactOptional(),
  insulationC: within(RANGES.wires.insulationC).describe('Insulation class; absent = 105.').exactOptional(),
  sleeved: z.boolean().exactOptional(),
  looped: z.boolean().meta(say('Fine strands in a tube and a loop to spare where the way moves.')).exactOptional(),
  bends: z
    .array(z.strictObject({ x: place, y: place, zone: id.exactOptional() }))
    .max(LONGEST.bends)
    .meta(say('Put by hand; `x` from the left edge of `zone`, without one from that of the drawing.'))
    .exactOptional(),
  fitted: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

const item = within(RANGES.parts.item).meta(say('Number within its letter, the 2 of F2; absent = in the order of making.'));
const gone = z.strictObject({
  wires: z.record(id, z.int().min(0).max(RANGES.wires.number.max)).meta(say('Number of each removed wire; 0 = it stood in the order of making.')),
  parts: z.record(id, z.strictObject({ kind: z.string().max(60), item: item.exactOptional() })),
});

/** A number as a key. */
const count = z.string().regex(/^[1-9]\d{0,4}$/);
const given = z.strictObject({
  wires: z.record(count, id).meta(say('Wire by its number.')),
  items: z.record(z.string().regex(/^[A-Z]{1,3}$/), z.record(count, id)).meta(say('Part by its number, by letter.')),
  serial: z.int().min(0).max(MOST_SERIAL).meta(say('Serials below this are not given again.')),
});

const alternative = z.strictObject({
  of: z.string().min(1).max(64).meta(say('Id of the first plan.')),
  letter: z
    .string()
    .regex(/^[B-Z]$/)
    .meta(say('The first plan is A.')),
});

function partSchema(kind: PartKind) {
  return z
    .strictObject({
      id,
      kind: z.literal(kind.kind),
      owner,
      zone: id,
      x: place,
      y: place,
      turn: z.literal([0, 1, 2, 3]).meta(say('Quarter turns clockwise.')),
      name: z.string().max(LONGEST.name).exactOptional(),
      settings: settingsSchema(kind),
      fitted: z.boolean().exactOptional(),
      note: note.exactOptional(),
      item: item.exactOptional(),
    })
    .meta({ title: kind.title, description: kind.about, 'x-terminals': terminalNotes(kind) });
}

/** Schema of a whole plan, with the settings of every given part kind. */
export function planSchema(kinds: readonly PartKind[]) {
  const [first, ...rest] = kinds.map(partSchema);
  // Without a single kind (nothing to choose from) no part can be right.
  const part = first ? z.discriminatedUnion('kind', [first, ...rest]) : z.never();
  const tables = {
    zones: z.record(id, zone),
    runs: z.record(id, run).meta(say('Cable ways between two zones.')),
    parts: z.record(id, part),
    wires: z.record(id, wire).meta(say('A wire joins two terminals. What is absent is chosen and explained.')),
  };
  const revision = z.strictObject({
    id,
    number: z.int().min(1).max(RANGES.wires.number.max),
    date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
    note: z.string().max(LONGEST.revisionNote),
    was: z
      .strictObject({ ...tables, vehicle: vehicle.exactOptional(), thresholds: thresholds.exactOptional() })
      .meta(say('The rows as they were, with facts of the vehicle and limits; absent = let go to make room.'))
      .exactOptional(),
  });
  return z
    .strictObject({
      format: z.literal('dashloom-plan'),
      version: z.literal(CURRENT_VERSION),
      id: z.string().min(1).max(64),
      alternative: alternative.meta(say('This plan is a further wiring beside a first one; absent = it is the first.')).exactOptional(),
      title: z.string().max(LONGEST.title),
      note: z.string().max(LONGEST.planNote),
      vehicle,
      ...tables,
      thresholds,
      setAside: z.record(z.string().max(200), z.string().max(LONGEST.reason)).meta(say('Findings and questions set aside, with the reason.')),
      stage: z.enum(STAGES).meta(say('Where the person stands in the job; absent = draw.')).exactOptional(),
      ticks: z.record(z.string().max(LONGEST.tick), z.literal(true)).meta(say('Lines of the job that are done, by key.')).exactOptional(),
      gone: gone.meta(say('What was removed: its numbers are not given again.')).exactOptional(),
      given: given.meta(say('Numbers that any wiring of this plan has given; absent = there is one wiring only.')).exactOptional(),
      revisions: z.record(id, revision).meta(say('The build as it was on certain days.')).exactOptional(),
      nextSerial: z.int().min(1).max(MOST_SERIAL).meta(say('Next free number for ids; only grows.')),
    })
    .meta({ title: 'Dashloom plan', description: 'One build in one vehicle. All values in SI units.' });
}
