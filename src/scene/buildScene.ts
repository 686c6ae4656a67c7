import { union } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import { LANE } from '../drawing/lanes.ts';
import { throughBends } from '../drawing/polyline.ts';
import { type Effort, route } from '../drawing/route.ts';
import { LaneSearch } from '../drawing/search.ts';
import type { Box, Point } from '../drawing/types.ts';
import { partKind } from '../parts/index.ts';
import type { PartKind } from '../parts/types.ts';
import { inOrder as rowsInOrder } from '../plan/ids.ts';
import type { Id, Plan, Wire } from '../plan/types.ts';
import { bendsOnDrawing } from './bends.ts';
import { dressWires } from './dressWires.ts';
import { changedBodies, keptRoute, zoneShift } from './keep.ts';
import { labelPlaces } from './labelPlaces.ts';
import { endsOf, lanesOf, usedTerminals } from './lanesOf.ts';
import { layZones, ZONE } from './layout.ts';
import type { PassesOver } from './passesOver.ts';
import { type LocalPart, localPart, placed } from './symbols.ts';
import type { PlacedPart, PlacedZone, Scene } from './types.ts';

export interface SceneOptions {
  /** Where kinds come from; absent = the parts index. */
  readonly kindOf?: (kind: string) => PartKind;
  /** `quick` = simple shapes only, for a first look at a large plan; absent = full. */
  readonly effort?: Effort;
  /** Ways that are known already, of wires that hung on what was dragged: taken where they lead from end to end. */
  readonly ways?: ReadonlyMap<Id, readonly number[]>;
}

/** What a scene was built from, for the next one. */
interface Origin {
  readonly locals: ReadonlyMap<Id, LocalPart>;
  /** Labels that do not stand at their first place (`labelPlaces`). */
  readonly places: ReadonlyMap<Id, number>;
  readonly wires: Plan['wires'];
  readonly over: PassesOver;
  /** So many wires did not keep their way. */
  readonly routed: number;
}
const origins = new WeakMap<Scene, Origin>();

/** Wires of a scene that have another way than in the scene before it. */
export function routedAfresh(scene: Scene): number {
  return origins.get(scene)?.routed ?? 0;
}

/**
 * The plan as a picture in drawing units; works for the raw plan (wires without size or colour are grey) and for the
 * filled one.
 * @param previous the last scene of the same plan: parts and wires that did not change are kept as they are (same
 *   objects), and only wires on changed parts, or in their way, are routed afresh
 */
export function buildScene(plan: Plan, previous?: Scene, options: SceneOptions = {}): Scene {
  const steps = sceneSteps(plan, previous, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in small steps, one wire each: a large plan takes longer than one frame. */
export function* sceneSteps(drawn: Plan, previous?: Scene, options: SceneOptions = {}): Generator<void, Scene> {
  const plan = inOrder(drawn);
  const kindOf = options.kindOf ?? partKind;
  const used = usedTerminals(plan);
  const locals = new Map(Object.values(plan.parts).map((p) => [p.id, localPart(p, kindOf(p.kind), used.get(p.id) ?? '')]));
  const zones = layZones(plan, locals);
  const { parts, places } = placeParts(plan, zones, locals, used, previous);
  const { lines, routed } = yield* routeWires(plan, zones, parts, previous, options);
  yield;
  const before = previous && origins.get(previous);
  const { wires, over } = yield* dressWires(plan, parts, lines, previous && before && { scene: previous, ...before }, options.effort === 'quick');
  const last = zones[zones.length - 1];
  const scene: Scene = {
    zones,
    runs: neighbourRuns(plan, zones),
    parts,
    wires,
    joints: jointsOf(plan, parts),
    bounds: last ? { x: 0, y: 0, w: last.box.x + last.box.w, h: last.box.h } : union([...parts.values()].map((p) => p.box)),
  };
  origins.set(scene, { locals, places, wires: plan.wires, over, routed });
  return scene;
}

/** Which wire is laid first and which label moves goes by ids: the same plan looks alike, whatever left its rows as they stand. */
function inOrder(plan: Plan): Plan {
  return { ...plan, runs: rowsInOrder(plan.runs), parts: rowsInOrder(plan.parts), wires: rowsInOrder(plan.wires) };
}

function placeParts(
  plan: Plan,
  zones: readonly PlacedZone[],
  locals: ReadonlyMap<Id, LocalPart>,
  used: ReadonlyMap<Id, string>,
  previous?: Scene,
): { readonly parts: Map<Id, PlacedPart>; readonly places: ReadonlyMap<Id, number> } {
  const byId = new Map(zones.map((z) => [z.id, z]));
  const before = previous && origins.get(previous);
  const rows = Object.values(plan.parts).map((part) => {
    const zone = byId.get(part.zone) ?? zones[0];
    const local = locals.get(part.id) as LocalPart;
    const y = local.onBar && zone ? zone.bar.y - 10 : ZONE.head + part.y;
    return { id: part.id, part, local, x: (zone?.box.x ?? 0) + part.x, y, used: used.get(part.id) ?? '' };
  });
  const places = labelPlaces(rows, zones);
  const parts = new Map<Id, PlacedPart>();
  for (const { id, part, local, x, y } of rows) {
    const old = previous?.parts.get(id);
    const isKept = old && before?.locals.get(id) === local && before.places.get(id) === places.get(id);
    const same = isKept && old.box.x === x && old.box.y === y && old.owner === part.owner;
    parts.set(id, same ? old : placed(part, local, x, y, local.others?.[places.get(id) ?? -1]));
  }
  return { parts, places };
}

/** Up to so many wires are routed a second time; beyond that opening a plan would take too long. */
const SECOND_LOOK = 200;
/** In larger plans a search that takes half the time: its ways are hardly longer (under 1 % on the plan of the bench). */
const HASTE = 1.2;

interface Routed {
  readonly lines: Map<Id, readonly number[]>;
  readonly routed: number;
}

function* routeWires(
  plan: Plan,
  zones: readonly PlacedZone[],
  parts: ReadonlyMap<Id, PlacedPart>,
  previous: Scene | undefined,
  { effort = 'full', ways }: SceneOptions,
): Generator<void, Routed> {
  const lines = new Map<Id, readonly number[]>();
  const open: { wire: Wire; ends: NonNullable<ReturnType<typeof endsOf>>; far: number }[] = [];
  const before = previous && origins.get(previous);
  const shift = previous ? zoneShift(previous.zones, zones) : null;
  const changed = previous ? changedBodies({ parts }, previous) : new GridIndex<Box>();
  let taken = 0;
  for (const wire of Object.values(plan.wires)) {
    const ends = endsOf(wire, parts);
    if (!ends) continue;
    const old = previous?.wires.get(wire.id);
    const bends = wire.bends && bendsOnDrawing(wire.bends, zones);
    if (bends && bends.length > 0) {
      const line = throughBends(ends[0], ends[1], bends, LANE);
      const same = old && sameLine(old.points, line);
      lines.set(wire.id, same ? old.points : line);
      if (!same) taken++;
      continue;
    }
    const kept = old && shift && !before?.wires[wire.id]?.bends ? keptRoute(old.points, shift, ends[0], ends[1], changed) : null;
    const way = kept ? undefined : ways?.get(wire.id);
    if (kept) lines.set(wire.id, kept);
    else if (way && leads(way, ends[0], ends[1])) {
      lines.set(wire.id, way);
      taken++;
    } else open.push({ wire, ends, far: Math.abs(ends[0].x - ends[1].x) + Math.abs(ends[0].y - ends[1].y) });
  }
  if (open.length === 0) return { lines, routed: taken };
  // Short before long: short ones have no other way, long ones can step aside.
  open.sort((a, b) => a.far - b.far);
  yield;
  const map = lanesOf(zones, parts.values());
  for (const pts of lines.values()) map.mark(pts);
  const search = new LaneSearch(map);
  yield;
  const haste = open.length + lines.size > SECOND_LOOK ? HASTE : 1;
  for (const { wire, ends } of open) {
    const pts = route(map, search, ends[0], ends[1], { effort, haste });
    map.mark(pts);
    lines.set(wire.id, pts);
    yield;
  }
  // A second round: the first wires were laid before it was known where the others must run.
  if (!previous && open.length <= SECOND_LOOK)
    for (const { wire, ends } of open) {
      map.mark(lines.get(wire.id) as readonly number[], -1);
      const pts = route(map, search, ends[0], ends[1]);
      map.mark(pts);
      lines.set(wire.id, pts);
      yield;
    }
  return { lines, routed: open.length + taken };
}

function sameLine(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((v, i) => v === b[i]);
}

/** Does a way begin and end at these two places? */
function leads(way: readonly number[], a: Point, b: Point): boolean {
  const n = way.length;
  return way[0] === a.x && way[1] === a.y && way[n - 2] === b.x && way[n - 1] === b.y;
}

function neighbourRuns(plan: Plan, zones: readonly PlacedZone[]): Scene['runs'] {
  const out: { id: Id; at: Point; lengthM: number }[] = [];
  zones.forEach((left, i) => {
    const right = zones[i + 1];
    if (!right) return;
    const run = Object.values(plan.runs).find((r) => (r.a === left.id && r.b === right.id) || (r.a === right.id && r.b === left.id));
    if (run) out.push({ id: run.id, at: { x: right.box.x, y: 56 }, lengthM: run.lengthM });
  });
  return out;
}

/** Dots where two or more wires share a terminal; splices draw their own. */
function jointsOf(plan: Plan, parts: ReadonlyMap<Id, PlacedPart>): Point[] {
  const count = new Map<string, number>();
  const out: Point[] = [];
  for (const wire of Object.values(plan.wires)) {
    for (const end of [wire.from, wire.to]) {
      const key = `${end.part}.${end.terminal}`;
      const n = (count.get(key) ?? 0) + 1;
      count.set(key, n);
      const pad = parts.get(end.part)?.pads[end.terminal];
      if (n === 2 && pad) out.push({ x: pad.x, y: pad.y });
    }
  }
  return out;
}
