import { partKind } from '../../parts/index.ts';
import type { Id, Part, Plan, Wire } from '../../plan/types.ts';
import { buildScene } from '../../scene/buildScene.ts';

/** Clear paper between columns and between rows, drawing units. */
const GAP = { x: 180, y: 70 } as const;

/**
 * A few parts of a plan laid out afresh to be looked at: from what feeds on the left to what is fed on the right, ground
 * last, with the wires among them.
 * @param keep ids of the parts to show
 */
export function excerpt(plan: Plan, keep: ReadonlySet<Id>): Plan {
  const parts = Object.values(plan.parts).filter((p) => keep.has(p.id));
  const wires = Object.values(plan.wires).filter((w) => keep.has(w.from.part) && keep.has(w.to.part));
  const zone = Object.values(plan.zones)[0]!;
  const small: Plan = {
    ...plan,
    zones: { [zone.id]: { ...zone, order: 0, width: null } },
    runs: {},
    parts: Object.fromEntries(parts.map((p) => [p.id, { ...p, zone: zone.id, turn: 0 as const }])),
    wires: Object.fromEntries(wires.map((w) => [w.id, bare(w)])),
  };
  return laidOut(small, columns(parts, wires));
}

/** A wire without the bends that belonged to its old place. */
function bare({ bends: _, ...wire }: Wire): Wire {
  return wire;
}

/** Parts by their distance, in wires, from what feeds them; grounds in the last column. */
function columns(parts: readonly Part[], wires: readonly Wire[]): Part[][] {
  const isGround = (p: Part): boolean => p.kind === 'chassis-ground';
  const depth = new Map<Id, number>();
  let next = parts.filter((p) => !isGround(p) && p.owner === 'vehicle').map((p) => p.id);
  if (next.length === 0)
    next = parts
      .filter((p) => !isGround(p))
      .slice(0, 1)
      .map((p) => p.id);
  const grounds = new Set(parts.filter(isGround).map((p) => p.id));
  for (let d = 0; ; d++) {
    for (const id of next) if (!depth.has(id)) depth.set(id, d);
    const reached = wires.flatMap((w) => neighbours(w, depth, d)).filter((id) => !depth.has(id) && !grounds.has(id));
    const rest = parts.find((p) => !depth.has(p.id) && !grounds.has(p.id));
    if (reached.length === 0 && !rest) break;
    next = reached.length > 0 ? reached : [rest!.id];
  }
  const deepest = Math.max(-1, ...depth.values());
  const list = Array.from({ length: deepest + 1 }, (_, d) => parts.filter((p) => depth.get(p.id) === d));
  const last = parts.filter(isGround);
  return [...list, ...(last.length > 0 ? [last] : [])];
}

function neighbours(w: Wire, depth: ReadonlyMap<Id, number>, d: number): Id[] {
  if (depth.get(w.from.part) === d) return [w.to.part];
  return depth.get(w.to.part) === d ? [w.from.part] : [];
}

/** Columns beside each other, as wide as their widest part. */
function laidOut(plan: Plan, list: readonly (readonly Part[])[]): Plan {
  const sizes = buildScene(plan).parts;
  const placed: Record<Id, Part> = {};
  let x = 20;
  for (const column of list) {
    let y = 0;
    let w = 0;
    for (const part of column) {
      const box = sizes.get(part.id)!.box;
      // A name stands above or below the body: a second row for it.
      placed[part.id] = { ...plan.parts[part.id]!, x: round(x), y: round(y) };
      y += box.h + GAP.y;
      w = Math.max(w, box.w, partKind(part.kind).title.length * 6);
    }
    x += w + GAP.x;
  }
  return { ...plan, parts: placed };
}

const round = (v: number): number => Math.round(v / 10) * 10;
