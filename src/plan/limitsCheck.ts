import { LONGEST, outside, RANGES, type Range } from './limits.ts';
import type { Change, Edit, Head, Part, Revision, Run, Wire, Zone } from './types.ts';

/** Why an edit writes a value that a plan may not hold, in plain words, or null. Settings of parts are not looked at. */
export function beyondLimits(edit: Edit): string | null {
  for (const change of edit.changes) {
    const reason = reasonFor(change);
    if (reason !== null) return reason;
  }
  return null;
}

function reasonFor(change: Change): string | null {
  if (change.after === null) return null;
  switch (change.table) {
    case 'head':
      return headReason(change.after);
    case 'revisions':
      return revisionReason(change.after);
    default:
      return rowReason(change.table, change.after);
  }
}

function revisionReason(revision: Revision): string | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(revision.date)) return 'the date of a revision is written like 2025-03-04';
  return tooLong('The note', revision.note, LONGEST.revisionNote);
}

function rowReason(table: 'parts' | 'wires' | 'zones' | 'runs', row: Part | Wire | Zone | Run): string | null {
  const loose = row as unknown as Readonly<Record<string, unknown>>;
  const numbers = rangesReason(RANGES[table], loose);
  if (numbers !== null) return numbers;
  const { name, note, bends, minC, maxC } = loose;
  if (table === 'zones' && name === '') return 'a zone needs a name';
  if (typeof minC === 'number' && typeof maxC === 'number' && minC > maxC) return 'the smallest temperature is above the largest';
  if (Array.isArray(bends) && bends.length > LONGEST.bends) return `a wire has room for ${LONGEST.bends} bends`;
  return tooLong('The name', name, LONGEST.name) ?? tooLong('The note', note, LONGEST.note);
}

function headReason(head: Head): string | null {
  const { vehicle } = head;
  const volts = Object.values(vehicle.supplyV ?? {}).flatMap((bands) => Object.values(bands ?? {}));
  const checks = [
    rangesReason(RANGES.vehicle, vehicle as unknown as Readonly<Record<string, unknown>>),
    ...volts.map((v) => outside(RANGES.supply.supplyV, v)),
    ...Object.values(head.thresholds).map((v) => (Number.isFinite(v) ? null : 'a limit needs a number')),
    tooLong('The title', head.title, LONGEST.title),
    tooLong('The note', head.note, LONGEST.planNote),
    tooLong('The name of the vehicle', vehicle.name, LONGEST.vehicleName),
    ...Object.keys(head.ticks ?? {}).map((key) => tooLong('The key of a tick', key, LONGEST.tick)),
    ...Object.values(head.setAside).map((text) => tooLong('The reason', text, LONGEST.reason)),
  ];
  return checks.find((reason) => reason !== null) ?? null;
}

function rangesReason(ranges: Readonly<Record<string, Range>>, row: Readonly<Record<string, unknown>>): string | null {
  for (const [key, range] of Object.entries(ranges)) {
    const value = row[key];
    const reason = typeof value === 'number' ? outside(range, value) : null;
    if (reason !== null) return reason;
  }
  return null;
}

function tooLong(what: string, text: unknown, longest: number): string | null {
  return typeof text === 'string' && text.length > longest ? `${what} is longer than ${longest} characters` : null;
}
