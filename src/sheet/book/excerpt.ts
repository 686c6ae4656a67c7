import { settingsOf } from '../../parts/definePart.ts';
import { partKind } from '../../parts/index.ts';
import type { PartKind } from '../../parts/types.ts';
import type { Id, Part, Plan, Wire } from '../../plan/types.ts';
import { buildScene } from '../../scene/buildScene.ts';
import type { PlacedPart } from '../../scene/types.ts';
import { briefKinds } from './briefKinds.ts';

/** Clear paper between columns, between rows, and at least at a wire with a tag beside its text, drawing units. */
const GAP = { x: 50, y: 48, tag: 30 } as const;
/** A row of columns wider than this goes on below: drawn smaller, its type could not be read. */
const ROW_MOST_U = 780;
/** Parts of a lower plan would stand far above the chassis bar; from this height on the zone grows with them. */
const ABOVE_BAR_U = 400;

/** A small plan and where the kinds of its parts come from. */
export interface Excerpt {
  readonly plan: Plan;
  readonly kindOf: (kind: string) => PartKind;
}

/**
 * A few parts of a plan laid out afresh to be looked at: from what feeds on the left to what is fed on the right, what
 * lies across a supply below it, grounds at the foot.
 * @param keep ids of the parts to show
 * @param tagU how much room the text at a wire takes, drawing units
 * @param noteU the same for the text below a part
 */
export function excerpt(plan: Plan, keep: ReadonlySet<Id>, tagU: (wire: Id) => number, noteU: (part: Id) => number): Excerpt {
  const parts = Object.values(plan.parts).filter((p) => keep.has(p.id));
  const wires = Object.values(plan.wires).filter((w) => keep.has(w.from.part) && keep.has(w.to.part));
  const zone = Object.values(plan.zones)[0]!;
  const small: Plan = {
    ...plan,
    zones: { [zone.id]: { ...zone, order: 0, width: null } },
    runs: {},
    parts: Object.fromEntries(parts.map((p) => [p.id, { ...p, zone: zone.id, x: 0, y: 0, turn: 0 as const }])),
    wires: Object.fromEntries(wires.map((w) => [w.id, bare(w)])),
  };
  const feeds = wires.filter((w) => !isReturn(plan, w));
  const kindOf = briefKinds(small);
  const sizes = buildScene(small, undefined, { kindOf }).parts;
  const list = columns(parts, feeds.length > 0 ? feeds : wires, wires);
  return { plan: { ...small, parts: laidOut(small, sizes, list, feeds, tagU, noteU) }, kindOf };
}

/** A wire without the bends that belonged to its old place. */
function bare({ bends: _, ...wire }: Wire): Wire {
  return wire;
}

const isGround = (p: Part): boolean => p.kind === 'chassis-ground';

/** Does a wire bring current back? */
function isReturn(plan: Plan, wire: Wire): boolean {
  return [wire.from, wire.to].some((end) => {
    const part = plan.parts[end.part]!;
    const kind = partKind(part.kind);
    return isGround(part) || kind.terminals(settingsOf(kind, part.settings)).find((t) => t.id === end.terminal)?.role === 'ground';
  });
}

/** Parts by their distance, in wires, from what feeds them, without grounds. What lies across a supply stands with what it guards. */
function columns(parts: readonly Part[], feeds: readonly Wire[], all: readonly Wire[]): Part[][] {
  const body = parts.filter((p) => !isGround(p));
  const depth = new Map<Id, number>();
  const lines = feeds.filter((w) => body.some((p) => p.id === w.from.part) && body.some((p) => p.id === w.to.part));
  const first = body.filter((p) => p.kind === 'battery');
  const vehicle = body.filter((p) => p.owner === 'vehicle' && p.kind.startsWith('feed'));
  const fed = [...(first.length > 0 ? first : vehicle), ...body.filter((p) => hasFreeSide(p, all))];
  let next = (fed.length > 0 ? fed : body.slice(0, 1)).map((p) => p.id);
  const isOpen = (id: Id): boolean => !depth.has(id);
  for (let d = 0; next.length > 0; d++) {
    for (const id of next) depth.set(id, d);
    next = [...new Set(lines.flatMap((w) => across(w, depth, d)).filter(isOpen))];
    // What only returns join to the others comes right of them.
    if (next.length === 0) next = [...new Set(all.flatMap((w) => across(w, depth, d)).filter((id) => isOpen(id) && body.some((p) => p.id === id)))].slice(0, 1);
    if (next.length === 0)
      next = body
        .filter((p) => isOpen(p.id))
        .slice(0, 1)
        .map((p) => p.id);
  }
  for (const part of body) {
    const at = standsAcross(part, all, lines);
    if (at !== null) depth.set(part.id, depth.get(at)!);
  }
  const deepest = Math.max(-1, ...depth.values());
  return Array.from({ length: deepest + 1 }, (_, d) =>
    body.filter((p) => depth.get(p.id) === d).sort((a, b) => Number(standsAcross(a, all, lines) !== null) - Number(standsAcross(b, all, lines) !== null)),
  ).filter((column) => column.length > 0);
}

/** A fuse whose feed is not shown: what it feeds comes behind it. */
function hasFreeSide(part: Part, all: readonly Wire[]): boolean {
  const used = new Set(all.flatMap((w) => [w.from, w.to].flatMap((end) => (end.part === part.id ? [end.terminal] : []))));
  return part.kind === 'blade-fuse' && used.size === 1;
}

function across(w: Wire, depth: ReadonlyMap<Id, number>, d: number): Id[] {
  if (depth.get(w.from.part) === d) return [w.to.part];
  return depth.get(w.to.part) === d ? [w.from.part] : [];
}

/** Small parts with one lead at a supply and the other at its return, or both at one part: capacitor, clamp, diode over a coil. */
const ACROSS = new Set(['capacitor', 'surge-clamp', 'diode', 'store']);

/** What such a part lies across; null = it is none. */
function standsAcross(part: Part, all: readonly Wire[], feeds: readonly Wire[]): Id | null {
  if (!ACROSS.has(part.kind)) return null;
  const mine = all.filter((w) => w.from.part === part.id || w.to.part === part.id);
  const others = mine.map((w) => (w.from.part === part.id ? w.to.part : w.from.part));
  if (mine.length !== 2) return null;
  if (others[0] === others[1]) return others[0]!;
  const feed = mine.filter((w) => feeds.includes(w));
  return feed.length === 1 ? others[mine.indexOf(feed[0]!)]! : null;
}

/** Columns beside each other, folded where a row gets too wide; each part level with what feeds it; grounds below what they ground. */
function laidOut(
  plan: Plan,
  sizes: ReadonlyMap<Id, PlacedPart>,
  list: readonly (readonly Part[])[],
  feeds: readonly Wire[],
  tagU: (wire: Id) => number,
  noteU: (part: Id) => number,
): Record<Id, Part> {
  const at = new Map<Id, { x: number; y: number }>();
  let x = 0;
  let top = 0;
  let foot = 0;
  for (const [i, column] of list.entries()) {
    const w = Math.max(...column.map((p) => widthU(sizes.get(p.id)!, noteU(p.id))));
    if (x > 0 && x + w > ROW_MOST_U) {
      x = 0;
      top = foot + GAP.y;
    }
    const startsRow = x === 0;
    let y = startsRow ? top : Number.NEGATIVE_INFINITY;
    for (const part of column) {
      const size = sizes.get(part.id)!;
      const wish = startsRow ? null : levelWith(part, feeds, sizes, at);
      y = Math.max(y, wish ?? (Number.isFinite(y) ? y : top), top - 30);
      at.set(part.id, { x: x + (w - widthU(size, noteU(part.id))) / 2 + (widthU(size, noteU(part.id)) - size.box.w) / 2, y });
      foot = Math.max(foot, y + size.box.h + (noteU(part.id) > 0 ? 20 : 0));
      y += size.box.h + GAP.y;
    }
    const coming = list[i + 1]?.map((p) => p.id) ?? [];
    const here = column.map((p) => p.id);
    const tags = feeds
      .filter((f) => (here.includes(f.from.part) && coming.includes(f.to.part)) || (here.includes(f.to.part) && coming.includes(f.from.part)))
      .map((f) => tagU(f.id));
    const tag = Math.max(0, ...tags);
    x += w + Math.max(GAP.x, tag > 0 ? tag + GAP.tag : 0);
  }
  placeGrounds(plan, sizes, at);
  const down = Math.max(-Math.min(0, ...[...at.values()].map((p) => p.y)), ABOVE_BAR_U - foot);
  const round = (v: number): number => Math.round(v / 10) * 10;
  return Object.fromEntries(
    [...at].map(([id, p]) => {
      const isBar = isGround(plan.parts[id]!);
      return [id, { ...plan.parts[id]!, x: round(p.x + 60), y: isBar ? 0 : round(p.y + down) }];
    }),
  );
}

/** Room of a part with its name and the text below it. */
function widthU(size: PlacedPart, noteU: number): number {
  const boxes = [size.box, ...size.labels];
  return Math.max(noteU, Math.max(...boxes.map((b) => b.x + b.w)) - Math.min(...boxes.map((b) => b.x)));
}

/** The height at which a part's terminal lies level with the terminal that feeds it. */
function levelWith(part: Part, feeds: readonly Wire[], sizes: ReadonlyMap<Id, PlacedPart>, at: ReadonlyMap<Id, { y: number }>): number | null {
  for (const w of feeds) {
    const [mine, other] = w.from.part === part.id ? [w.from, w.to] : [w.to, w.from];
    const there = at.get(other.part);
    if (mine.part !== part.id || !there) continue;
    const [a, b] = [sizes.get(mine.part)!, sizes.get(other.part)!];
    const [pad, to] = [a.pads[mine.terminal], b.pads[other.terminal]];
    if (pad && to) return there.y + (to.y - b.box.y) - (pad.y - a.box.y);
  }
  return null;
}

function placeGrounds(plan: Plan, sizes: ReadonlyMap<Id, PlacedPart>, at: Map<Id, { x: number; y: number }>): void {
  let left = Number.NEGATIVE_INFINITY;
  for (const ground of Object.values(plan.parts).filter(isGround)) {
    const above = Object.values(plan.wires).flatMap((w) => {
      const other = w.from.part === ground.id ? w.to.part : w.to.part === ground.id ? w.from.part : null;
      const place = other === null ? undefined : at.get(other);
      return place && !isGround(plan.parts[other!]!) ? [place.x + sizes.get(other!)!.box.w / 2] : [];
    });
    const wish = above.length > 0 ? Math.max(...above) - 20 : 0;
    const x = Math.max(wish, left);
    at.set(ground.id, { x, y: 0 });
    left = x + 110;
  }
}
