import type { MeterGround } from '../analysis/meterGround.ts';
import { type Analysis, type Arrival, KEY_POSITIONS, type Reading } from '../analysis/types.ts';
import { viewsOf } from '../analysis/views.ts';
import { namedEnd, partKinds } from '../parts/index.ts';
import type { Band, End, Id, Plan, VehicleState, Wire } from '../plan/types.ts';

interface Places {
  readonly terminals: ReadonlyMap<string, number>;
  readonly wires: ReadonlyMap<Id, number>;
  readonly elements: ReadonlyMap<string, number>;
  readonly devices: ReadonlyMap<string, number>;
}
const cache = new WeakMap<Analysis['index'], Places>();

function places(analysis: Analysis): Places {
  let found = cache.get(analysis.index);
  if (!found) {
    const map = (keys: readonly string[]) => new Map(keys.map((k, i) => [k, i]));
    const { terminals, wires, elements, devices } = analysis.index;
    found = { terminals: map(terminals), wires: map(wires), elements: map(elements), devices: map(devices) };
    cache.set(analysis.index, found);
  }
  return found;
}

/** The reading of one state in one band; null when the vehicle has no such state. */
export function readingOf(analysis: Analysis, state: VehicleState, band: Band): Reading | null {
  return analysis.readings.find((r) => r.state === state && r.band === band) ?? null;
}

/** Volts of a terminal to battery negative; NaN when floating or not computed. */
export function terminalV(analysis: Analysis, reading: Reading | null, part: Id, terminal: string): number {
  const at = places(analysis).terminals.get(`${part}.${terminal}`);
  return reading && at !== undefined && reading.status === 'solved' ? (reading.terminalV[at] ?? Number.NaN) : Number.NaN;
}

/** Amps in a wire, positive from -> to; NaN when not computed. */
export function wireA(analysis: Analysis, reading: Reading | null, wire: Id): number {
  const at = places(analysis).wires.get(wire);
  return reading && at !== undefined && reading.status === 'solved' ? (reading.wireA[at] ?? Number.NaN) : Number.NaN;
}

/** Devices of a part (relay, converter, computer) and whether each is on; empty when not computed. */
export function devicesOf(analysis: Analysis, reading: Reading | null, part: Id): readonly { readonly name: string; readonly on: boolean }[] {
  if (reading?.status !== 'solved') return [];
  return [...places(analysis).devices]
    .filter(([key]) => key.startsWith(`${part}:`))
    .map(([key, at]) => ({ name: key.slice(part.length + 1), on: reading.deviceOn[at] === 1 }));
}

/** What one wire does at one key position: size of its current, its drop, its heat. */
export interface WireFigures {
  readonly ampsA: number;
  readonly dropV: number;
  readonly heatW: number;
}

export function wireFigures(analysis: Analysis, wire: Wire, reading: Reading | null): WireFigures {
  const ampsA = Math.abs(wireA(analysis, reading, wire.id));
  const from = terminalV(analysis, reading, wire.from.part, wire.from.terminal);
  const dropV = Math.abs(from - terminalV(analysis, reading, wire.to.part, wire.to.terminal));
  return { ampsA, dropV, heatW: ampsA * dropV };
}

/** The six key positions of one wire, in order, for a band. */
export function sixFigures(analysis: Analysis, wire: Wire, band: Band): readonly WireFigures[] {
  return KEY_POSITIONS.map(({ state }) => wireFigures(analysis, wire, readingOf(analysis, state, band)));
}

const items = new WeakMap<Plan, ReadonlyMap<Id, string>>();

/** Item number of a part as printed on the sheet, e.g. F2; '' before the first results. */
export function itemOf(filled: Plan | undefined, id: Id): string {
  if (!filled) return '';
  let map = items.get(filled);
  if (!map) {
    map = new Map([...viewsOf(filled)].map(([part, view]) => [part, view.item]));
    items.set(filled, map);
  }
  return map.get(id) ?? '';
}

/** The person's name of a part, or its kind's title. */
export function partName(plan: Plan, id: Id): string {
  const part = plan.parts[id];
  if (!part) return id;
  return part.name ?? partKinds.get(part.kind)?.title ?? part.kind;
}

/** Where the black probe goes for a figure: "battery negative", "its own 0 V" (of the part asked about), "the computer's 0 V". */
export function groundName(plan: Plan, ground: MeterGround | null, asked?: Id): string {
  if (!ground) return 'battery negative';
  if (ground.part === asked) return 'its own 0 V';
  const part = plan.parts[ground.part];
  if (part?.name !== undefined) return `0 V of ${part.name}`;
  const title = partName(plan, ground.part);
  return `the ${/^\p{Lu}\p{Ll}/u.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title}’s 0 V`;
}

/** "Hold relay 87", "Step-down 0 V". */
export function endName(plan: Plan, end: End): string {
  const part = plan.parts[end.part];
  return part ? namedEnd(part, end.terminal) : end.part;
}

/** "W3"; the vehicle's own wires have no number: "of the vehicle". */
export function wireName(filled: Plan, id: Id): string {
  const number = filled.wires[id]?.number;
  return number === undefined ? 'of the vehicle' : `W${number}`;
}

/** What a row of "what arrives" is called: the part, and which of its inputs where it has several. */
export function arrivalName(plan: Plan, row: Pick<Arrival, 'part' | 'label'>): string {
  const name = partName(plan, row.part);
  const kind = partKinds.get(plan.parts[row.part]?.kind ?? '');
  const same = row.label.toLowerCase() === name.toLowerCase() || row.label.toLowerCase() === kind?.title.toLowerCase();
  return same ? name : `${name}, ${row.label}`;
}

/** A reason of an automatic value as a sentence. */
export function automaticReason(reason: string | undefined): string | undefined {
  if (reason === undefined || reason === '') return undefined;
  return `Automatic: ${reason}${/[.!?]$/.test(reason) ? '' : '.'}`;
}
