import type { Plan, Run, Vehicle, Zone } from './types.ts';

/**
 * What a new plan assumes of its vehicle until the person says otherwise. Ah, parked draw and standing time: common
 * practice, no source. Dip level I of ISO 16750-2: the build may restart after a start but must not be harmed by it.
 */
export const DEFAULT_VEHICLE: Vehicle = {
  name: '',
  systemV: 12,
  polarity: 'negative-ground',
  batteryAh: 60,
  centralClamping: 'unknown',
  dipLevel: 'I',
  parkedA: 0.03,
  standingDays: 21,
  stopStart: false,
  remoteStart: false,
  electrified: false,
  isolator: false,
};

const ZONES: readonly Zone[] = [
  { id: 'z1', name: 'Engine bay', kind: 'engine-bay', order: 0, width: null },
  { id: 'z2', name: 'Behind the radio', kind: 'dash', order: 1, width: null },
  { id: 'z3', name: 'Under the seat', kind: 'under-seat', order: 2, width: null },
  { id: 'z4', name: 'Desk', kind: 'desk', order: 3, width: null },
];

/** Cable ways between neighbouring zones, m. Common practice, no source: measure your own with a string. */
const RUNS: readonly Run[] = [
  { id: 'r5', a: 'z1', b: 'z2', lengthM: 1.4 },
  { id: 'r6', a: 'z2', b: 'z3', lengthM: 2.2 },
  { id: 'r7', a: 'z3', b: 'z4', lengthM: 2.4 },
];

/**
 * A plan with four zones and nothing in them.
 * @param id identity of the document across devices; a fresh random one unless given.
 */
export function emptyPlan(title: string, vehicle: Partial<Vehicle> = {}, id: string = freshPlanId()): Plan {
  return {
    format: 'dashloom-plan',
    version: 1,
    id,
    title,
    note: '',
    vehicle: { ...DEFAULT_VEHICLE, ...vehicle },
    zones: Object.fromEntries(ZONES.map((z) => [z.id, z])),
    runs: Object.fromEntries(RUNS.map((r) => [r.id, r])),
    parts: {},
    wires: {},
    thresholds: {},
    setAside: {},
    nextSerial: 8,
  };
}

/** 80 random bits as text. Not `randomUUID`: browsers withhold that from pages served without encryption. */
export function freshPlanId(): string {
  return [...crypto.getRandomValues(new Uint8Array(10))].map((b) => b.toString(16).padStart(2, '0')).join('');
}

/** Stands between the id that a plan was made with and what tells a version kept beside it from the first. */
const VERSION = '~';

/** Id of the plan that this one is a version of: its own, when it is none. */
export function originOf(id: string): string {
  return id.split(VERSION)[0]!;
}

/** A new id for another version of a plan, kept beside it. */
export function versionId(id: string): string {
  // The file format ends an id at 64 characters.
  return `${originOf(id).slice(0, 40)}${VERSION}${freshPlanId()}`;
}
