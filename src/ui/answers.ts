import type { Wish } from '../advise/guide/types.ts';
import { withoutTicks } from '../advise/guide/wishes.ts';
import { apply } from '../plan/apply.ts';
import { addParts } from '../plan/edits.ts';
import { emptyPlan } from '../plan/new.ts';
import type { DipLevel, Known, Line, Plan, Run, Vehicle, Zone, ZoneKind } from '../plan/types.ts';
import { zoneClimate } from '../trade/zones.ts';

/** What the five questions gather; 'unknown' is planned for at its worst. */
export interface Answers {
  readonly title: string;
  readonly systemV: 12 | 24 | 'unknown';
  /** Battery size, Ah; null = not known. */
  readonly batteryAh: number | null;
  readonly computerAt: ZoneKind | 'unknown';
  readonly displayAt: ZoneKind | 'unknown';
  readonly stopStart: Known;
  /** Must the computer keep running while the starter turns? */
  readonly throughStart: Known;
  readonly leads: readonly Line[];
  /** What the build does without. */
  readonly without: readonly Wish[];
}

export const NO_ANSWERS: Answers = {
  title: '',
  systemV: 'unknown',
  batteryAh: null,
  computerAt: 'unknown',
  displayAt: 'unknown',
  stopStart: 'unknown',
  throughStart: 'unknown',
  leads: [],
  without: [],
};

/** What a build may have or not. */
export const WISHES: readonly { readonly wish: Wish; readonly title: string }[] = [
  { wish: 'screen', title: 'A display' },
  { wish: 'sound', title: 'Sound through the radio' },
  { wish: 'camera', title: 'A camera' },
  { wish: 'buttons', title: 'Push buttons' },
];

/** Planned for when the size is not known: a small starter battery, so that parked days come out short. Common practice, no source. */
export const SMALL_BATTERY_AH = 44;
/** The hottest place inside a cab: planned for when the place is not known. */
export const HOTTEST: ZoneKind = 'dash-top';

/** Lead that may be found, and the part that stands for it. */
export const LEADS: readonly { readonly line: Line; readonly kind: string; readonly title: string }[] = [
  { line: '30', kind: 'feed-30', title: '30: live always' },
  { line: '15', kind: 'feed-15', title: '15: live with the ignition' },
  { line: '75', kind: 'feed-75', title: '75: live at Accessory, off while starting' },
  { line: '75r', kind: 'feed-75r', title: '75 retained: stays live a while after key-off' },
  { line: '58', kind: 'feed-58', title: '58: live with the lights' },
  { line: 'reverse', kind: 'feed-reverse', title: 'reversing lamp' },
];

/** Cable from zone to zone until it has been measured, m. Common practice, no source. */
const RUN_M: Readonly<Record<ZoneKind, number>> = {
  'engine-bay': 1.4,
  dash: 0.8,
  'dash-top': 1.2,
  console: 1.2,
  'under-seat': 2.2,
  desk: 3.5,
  'load-bay': 4.5,
  roof: 3,
  outside: 5,
};

/** The vehicle that the answers describe. */
export function vehicleFrom(a: Answers): Vehicle {
  // "Must keep running" needs the deeper standard dip; a restart is allowed with level I (ISO 16750-2).
  const dipLevel: DipLevel = a.throughStart === 'no' ? 'I' : 'II';
  return {
    ...emptyPlan('', {}, '').vehicle,
    systemV: a.systemV === 24 ? 24 : 12,
    batteryAh: a.batteryAh ?? SMALL_BATTERY_AH,
    stopStart: a.stopStart !== 'no',
    dipLevel,
  };
}

/** Zones from the engine bay to where computer and display go; two things in one kind of place share a zone. */
export function zonesFrom(a: Answers): { readonly zones: readonly Zone[]; readonly runs: readonly Run[] } {
  const kinds: ZoneKind[] = ['engine-bay', 'dash'];
  for (const kind of [a.computerAt, a.displayAt].map((k) => (k === 'unknown' ? HOTTEST : k))) if (!kinds.includes(kind)) kinds.push(kind);
  const zones = kinds.map((kind, order): Zone => ({ id: `z${order + 1}`, name: zoneClimate(kind).title, kind, order, width: null }));
  // Engine bay to dash; from the dash a run of its own to every other place.
  const runs = zones.slice(1).map(
    (zone, i): Run => ({
      id: `r${zones.length + i + 1}`,
      a: i === 0 ? 'z1' : 'z2',
      b: zone.id,
      lengthM: i === 0 ? RUN_M['engine-bay'] : RUN_M[zone.kind],
    }),
  );
  return { zones, runs };
}

/** A new plan with the vehicle in it: battery with its strap, the leads found, and one ground for the build near them. */
export function planFrom(a: Answers): Plan {
  const { zones, runs } = zonesFrom(a);
  const base: Plan = {
    ...emptyPlan(a.title.trim() === '' ? 'My plan' : a.title.trim(), vehicleFrom(a)),
    zones: Object.fromEntries(zones.map((z) => [z.id, z])),
    runs: Object.fromEntries(runs.map((r) => [r.id, r])),
    nextSerial: zones.length + runs.length + 1,
    ...(a.without.length > 0 ? { ticks: withoutTicks(a.without) } : {}),
  };
  const feeds = LEADS.filter((l) => a.leads.includes(l.line));
  // The constant lead runs straight from the battery's post; the others come by ways of the vehicle that nobody has told.
  const { edit, wires } = addParts(
    base,
    {
      parts: [
        { key: 'battery', kind: 'battery', owner: 'vehicle', zone: 'z1', x: 50, y: feeds[0]?.line === '30' ? 50 : 180 },
        { key: 'body', kind: 'chassis-ground', owner: 'vehicle', zone: 'z1', x: 80, y: 420, name: 'Battery strap' },
        { key: 'ground', kind: 'chassis-ground', zone: 'z2', x: 80, y: 420, name: 'Dash ground' },
        ...feeds.map((l, i) => ({ key: l.kind, kind: l.kind, owner: 'vehicle' as const, zone: 'z2', x: 40, y: 60 + i * 80 })),
      ],
      wires: [
        { from: ['battery', '-'], to: ['body', '31'], extras: { owner: 'vehicle' } },
        ...feeds
          .filter((l) => l.line === '30')
          .map((l) => ({ from: ['battery', '+'] as const, to: [l.kind, 'in'] as const, extras: { owner: 'vehicle' as const } })),
      ],
    },
    'plan.new',
    'New plan',
  );
  const done = apply(base, edit);
  if (!done.ok) throw new Error(`new plan of ${zones.length} zones and ${wires.length} wires does not hold together: ${done.reason}`);
  return done.plan;
}
