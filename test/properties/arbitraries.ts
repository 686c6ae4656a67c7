import fc from 'fast-check';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKind, partKinds } from '../../src/parts/index.ts';
import type { PartKind, Setting } from '../../src/parts/types.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Id, Part, Plan, Run, Value, Vehicle, Wire, Zone } from '../../src/plan/types.ts';
import { AREAS_MM2 } from '../../src/trade/conductors.ts';
import { bench } from '../rules/plans.ts';

const KINDS = [...partKinds.values()];
const ZONE_KINDS = ['engine-bay', 'dash', 'dash-top', 'under-seat', 'console', 'roof', 'load-bay', 'desk', 'outside'] as const;

/** Any value that a setting allows. */
export function anyValue(setting: Setting): fc.Arbitrary<Value> {
  switch (setting.type) {
    case 'number':
      return fc.double({ min: setting.min, max: setting.max, noNaN: true }).map((v) => v + 0);
    case 'choice':
      return fc.constantFrom(...setting.options.map((o) => o.value));
    case 'flag':
      return fc.boolean();
    case 'text':
      return fc.string({ maxLength: Math.min(20, setting.maxLength) });
  }
}

type Typed = Readonly<Record<string, Value>>;

/** Most parts stand as they come from the shelf; the rest have a few settings typed, to any allowed value. */
function typedSettings(kind: PartKind): fc.Arbitrary<Typed> {
  if (kind.settings.length === 0) return fc.constant({});
  const some = fc
    .subarray([...kind.settings], { maxLength: Math.min(3, kind.settings.length) })
    .chain((chosen) => fc.tuple(...chosen.map((s) => anyValue(s).map((v) => [s.key, v] as const))));
  return fc.oneof({ arbitrary: fc.constant<Typed>({}), weight: 3 }, { arbitrary: some.map((pairs): Typed => Object.fromEntries(pairs)), weight: 2 });
}

const anyZones = fc
  .array(
    fc.record({
      kind: fc.constantFrom(...ZONE_KINDS),
      maxC: fc.option(fc.integer({ min: 30, max: 130 }), { nil: undefined }),
      minC: fc.option(fc.integer({ min: -50, max: 20 }), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((list): Zone[] =>
    list.map((z, i) => ({
      id: `z${i + 1}`,
      name: `Zone ${i + 1}`,
      kind: z.kind,
      order: i,
      width: null,
      ...(z.maxC === undefined ? {} : { maxC: z.maxC }),
      ...(z.minC === undefined ? {} : { minC: z.minC }),
    })),
  );

const anyVehicle: fc.Arbitrary<Partial<Vehicle>> = fc.record({
  systemV: fc.constantFrom(12, 24) as fc.Arbitrary<12 | 24>,
  centralClamping: fc.constantFrom('yes', 'no', 'unknown'),
  dipLevel: fc.constantFrom('I', 'II', 'III', 'IV'),
  batteryAh: fc.integer({ min: 1, max: 400 }),
  parkedA: fc.double({ min: 0, max: 0.2, noNaN: true }),
  stopStart: fc.boolean(),
  remoteStart: fc.boolean(),
  electrified: fc.boolean(),
  isolator: fc.boolean(),
});

const anyWireValues = fc.record(
  {
    areaMm2: fc.constantFrom(...AREAS_MM2),
    lengthM: fc.double({ min: 0.001, max: 30, noNaN: true }),
    colour: fc.constantFrom('BK', 'RD', 'BU', 'VT') as fc.Arbitrary<NonNullable<Wire['colour']>>,
    number: fc.integer({ min: 1, max: 60 }),
    insulationC: fc.constantFrom(70, 85, 105, 125),
    looped: fc.boolean(),
  },
  { requiredKeys: [] },
);

/** Kinds that make current flow stand more often, or most plans would be dead. */
const anyKind = fc.oneof(
  { arbitrary: fc.constantFrom(...KINDS.map((k) => k.kind)), weight: 3 },
  {
    arbitrary: fc.constantFrom('battery', 'feed-30', 'feed-15', 'blade-fuse', 'chassis-ground', 'chassis-ground', 'step-down', 'computer', 'resistor'),
    weight: 2,
  },
);
const anyPart = anyKind.chain((kind) => fc.record({ kind: fc.constant(kind), settings: typedSettings(partKind(kind)), zone: fc.nat(9) }));
const anyWire = fc.record({ fromPart: fc.nat(99), fromAt: fc.nat(99), toPart: fc.nat(99), toAt: fc.nat(99), values: anyWireValues });
type WireDraw = typeof anyWire extends fc.Arbitrary<infer T> ? T : never;

/** Terminal ids of a part as it is set. */
export function terminalsOf(part: Part): string[] {
  const kind = partKind(part.kind);
  return kind.terminals(settingsOf(kind, part.settings)).map((t) => t.id);
}

/**
 * Adds drawn wires between whatever terminals they happen to meet; a wire from a terminal to itself is left out, and so is
 * a number that another wire has: the page takes none such, and a file's is replaced.
 */
function withWires(plan: Plan, draws: readonly WireDraw[]): Plan {
  const parts = Object.values(plan.parts).filter((p) => terminalsOf(p).length > 0);
  if (parts.length === 0) return plan;
  const wires: Record<Id, Wire> = { ...plan.wires };
  const taken = new Set(Object.values(wires).map((w) => w.number));
  let serial = plan.nextSerial;
  for (const d of draws) {
    const from = parts[d.fromPart % parts.length]!;
    const to = parts[d.toPart % parts.length]!;
    const a = terminalsOf(from);
    const b = terminalsOf(to);
    const { number, ...values } = d.values;
    const wire: Wire = {
      ...values,
      ...(number === undefined || taken.has(number) ? {} : { number }),
      id: `w${serial}`,
      owner: from.owner === 'vehicle' && to.owner === 'vehicle' ? 'vehicle' : 'build',
      from: { part: from.id, terminal: a[d.fromAt % a.length]! },
      to: { part: to.id, terminal: b[d.toAt % b.length]! },
    };
    if (wire.from.part === wire.to.part && wire.from.terminal === wire.to.terminal) continue;
    wires[wire.id] = wire;
    taken.add(wire.number);
    serial++;
  }
  return { ...plan, wires, nextSerial: serial };
}

/** Parts of any kind with wires between any of their terminals: mostly nonsense, all of it valid. */
export const nonsensePlan: fc.Arbitrary<Plan> = fc
  .record({
    vehicle: anyVehicle,
    zones: anyZones,
    runs: fc.array(
      fc.record({
        a: fc.nat(9),
        b: fc.nat(9),
        lengthM: fc.double({ min: 0.1, max: 12, noNaN: true }),
        moving: fc.constantFrom(undefined, undefined, 'hinge' as const, 'tilt' as const),
      }),
      { maxLength: 6 },
    ),
    parts: fc.array(anyPart, { minLength: 1, maxLength: 14 }),
    wires: fc.array(anyWire, { maxLength: 24 }),
  })
  .map(({ vehicle, zones, runs, parts, wires }) => {
    let serial = zones.length + 1;
    const runRows: Record<Id, Run> = {};
    for (const r of runs) {
      const [a, b] = [zones[r.a % zones.length]!.id, zones[r.b % zones.length]!.id];
      if (a === b) continue;
      const id = `r${serial++}`;
      runRows[id] = { id, a, b, lengthM: r.lengthM, ...(r.moving ? { moving: r.moving } : {}) };
    }
    const partRows: Record<Id, Part> = {};
    parts.forEach((p, i) => {
      const id = `p${serial++}`;
      const zone = zones[p.zone % zones.length]!.id;
      const owner = partKind(p.kind).owner ?? 'build';
      partRows[id] = { id, kind: p.kind, owner, zone, x: 20 + (i % 4) * 180, y: 20 + Math.floor(i / 4) * 500, turn: 0, settings: p.settings };
    });
    const plan: Plan = {
      ...emptyPlan('Random', vehicle, 'random'),
      zones: Object.fromEntries(zones.map((z) => [z.id, z])),
      runs: runRows,
      parts: partRows,
      nextSerial: serial,
    };
    return withWires(plan, wires);
  });

/** A sound plan with some wires cut, some settings typed to anything and some wires added anywhere: runs, mostly. */
export const spoiltPlan: fc.Arbitrary<Plan> = fc
  .record({
    vehicle: anyVehicle,
    cut: fc.array(fc.nat(99), { maxLength: 4 }),
    gone: fc.array(fc.nat(99), { maxLength: 2 }),
    typed: fc.array(fc.tuple(fc.nat(99), fc.nat(99), fc.double({ min: 0, max: 1, noNaN: true })), { maxLength: 3 }),
    wires: fc.array(anyWire, { maxLength: 4 }),
  })
  .map(({ vehicle, cut, gone, typed, wires }) => {
    const base = bench('spoilt', vehicle).plan;
    const lost = new Set(gone.map((n) => Object.keys(base.parts)[n % Object.keys(base.parts).length]!));
    const without = new Set(cut.map((n) => Object.keys(base.wires)[n % Object.keys(base.wires).length]!));
    const parts: Record<Id, Part> = Object.fromEntries(Object.entries(base.parts).filter(([id]) => !lost.has(id)));
    const ids = Object.keys(parts);
    for (const [at, which, share] of typed) {
      const part = parts[ids[at % ids.length]!]!;
      const { settings } = partKind(part.kind);
      const setting = settings[which % Math.max(1, settings.length)];
      if (setting) parts[part.id] = { ...part, settings: { ...part.settings, [setting.key]: valueAt(setting, share) } };
    }
    const kept = Object.values(base.wires).filter((w) => !without.has(w.id) && meets(parts, w.from) && meets(parts, w.to));
    return withWires({ ...base, parts, wires: Object.fromEntries(kept.map((w) => [w.id, w])) }, wires);
  });

function meets(parts: Readonly<Record<Id, Part>>, end: Wire['from']): boolean {
  const part = parts[end.part];
  return part !== undefined && terminalsOf(part).includes(end.terminal);
}

/** A value of a setting, by a share of its range. */
function valueAt(setting: Setting, share: number): Value {
  switch (setting.type) {
    case 'number':
      return setting.min + share * (setting.max - setting.min);
    case 'choice':
      return setting.options[Math.min(setting.options.length - 1, Math.floor(share * setting.options.length))]!.value;
    case 'flag':
      return share > 0.5;
    case 'text':
      return 'text';
  }
}

export const anyPlan: fc.Arbitrary<Plan> = fc.oneof({ arbitrary: nonsensePlan, weight: 1 }, { arbitrary: spoiltPlan, weight: 1 });

/** Sources and resistances alone, each resistor's near end towards the feed: what more copper length can only make worse. */
export const resistivePlan: fc.Arbitrary<{ readonly plan: Plan; readonly wires: readonly Id[] }> = fc
  .record({
    vehicle: fc.record({ systemV: fc.constantFrom(12, 24) as fc.Arbitrary<12 | 24> }),
    ohms: fc.array(fc.double({ min: 1, max: 10_000, noNaN: true }), { minLength: 1, maxLength: 8 }),
    wires: fc.array(
      fc.record({ a: fc.nat(40), b: fc.nat(40), lengthM: fc.double({ min: 0.05, max: 10, noNaN: true }), areaMm2: fc.constantFrom(...AREAS_MM2) }),
      {
        minLength: 3,
        maxLength: 24,
      },
    ),
  })
  .map(({ vehicle, ohms, wires }) => {
    const plan = emptyPlan('Resistances', vehicle, 'resistances');
    let serial = plan.nextSerial;
    const parts: Record<Id, Part> = {};
    const add = (kind: string, settings: Typed): Part => {
      const id = `p${serial++}`;
      parts[id] = { id, kind, owner: partKind(kind).owner ?? 'build', zone: 'z2', x: 20, y: 20, turn: 0, settings };
      return parts[id];
    };
    add('battery', {});
    add('chassis-ground', {});
    for (const ohm of ohms) add('resistor', { ohm });
    const ends = Object.values(parts).flatMap((p) => terminalsOf(p).map((terminal) => ({ part: p.id, terminal })));
    const rows: Record<Id, Wire> = {};
    for (const w of wires) {
      const from = ends[w.a % ends.length]!;
      const to = ends[w.b % ends.length]!;
      if (from === to) continue;
      const id = `w${serial++}`;
      rows[id] = { id, owner: 'build', from, to, lengthM: w.lengthM, areaMm2: w.areaMm2 };
    }
    return { plan: { ...plan, parts, wires: rows, nextSerial: serial }, wires: Object.keys(rows) };
  });
