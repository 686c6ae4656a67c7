import { inflate, overlaps } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import type { RouteEnd } from '../drawing/route.ts';
import type { Box } from '../drawing/types.ts';
import type { PlacedZone, Scene } from './types.ts';

/**
 * Carries old routes over to a changed layout: a point keeps its place inside its zone. Returns null for a point that
 * lies in a strip that is no longer there, or in a zone that is gone.
 */
export function zoneShift(before: readonly PlacedZone[], after: readonly PlacedZone[]): (x: number) => number | null {
  const now = new Map(after.map((z) => [z.id, z.box]));
  const sameOrder = before.map((z) => z.id).join() === after.map((z) => z.id).join();
  const still = sameOrder && before.every((z, i) => z.box.x === after[i]?.box.x && z.box.w === after[i]?.box.w);
  if (still) return (x) => x;
  const last = before[before.length - 1];
  const lastNow = after[after.length - 1];
  return (x) => {
    if (x < 0) return x;
    const zone = before.find((z) => x < z.box.x + z.box.w);
    if (!zone) return last && lastNow && sameOrder ? x - (last.box.x + last.box.w) + lastNow.box.x + lastNow.box.w : null;
    const box = now.get(zone.id);
    const local = x - zone.box.x;
    return box && local < box.w ? box.x + local : null;
  };
}

/** The old route at its new place, or null when it must be routed afresh. */
export function keptRoute(
  points: readonly number[],
  shift: (x: number) => number | null,
  a: RouteEnd,
  b: RouteEnd,
  changed: GridIndex<Box>,
): readonly number[] | null {
  const out: number[] = [];
  let moved = false;
  for (let i = 0; i < points.length; i += 2) {
    const x = shift(points[i] as number);
    if (x === null) return null;
    moved ||= x !== points[i];
    out.push(x, points[i + 1] as number);
  }
  const n = out.length;
  if (out[0] !== a.x || out[1] !== a.y || out[n - 2] !== b.x || out[n - 1] !== b.y) return null;
  if (crosses(out, changed)) return null;
  return moved ? out : points;
}

/** Does the line run through one of the bodies (nearer than a lane)? Its own ends may touch. */
function crosses(pts: readonly number[], bodies: GridIndex<Box>): boolean {
  const last = pts.length - 4;
  for (let i = 0; i <= last; i += 2) {
    const [x0, y0, x1, y1] = [pts[i] as number, pts[i + 1] as number, pts[i + 2] as number, pts[i + 3] as number];
    // The first and last piece start at a pad on a body's edge: step off it before looking.
    const cut = (from: number, to: number, off: boolean) => (off ? from + Math.sign(to - from) * Math.min(10, Math.abs(to - from)) : from);
    const ax = cut(x0, x1, i === 0);
    const ay = cut(y0, y1, i === 0);
    const bx = cut(x1, x0, i === last);
    const by = cut(y1, y0, i === last);
    const piece = inflate({ x: Math.min(ax, bx), y: Math.min(ay, by), w: Math.abs(ax - bx), h: Math.abs(ay - by) }, 0.5);
    if (bodies.near(piece).some((b) => overlaps(b, piece))) return true;
  }
  return false;
}

/**
 * Index of what is new, moved or changed since the last scene and stands in a wire's way: bodies, with the free margin
 * around them, and labels.
 */
export function changedBodies(scene: Pick<Scene, 'parts'>, previous: Scene): GridIndex<Box> {
  const index = new GridIndex<Box>();
  for (const [id, part] of scene.parts) {
    const old = previous.parts.get(id);
    if (old === part) continue;
    for (const label of part.labels) if (!old?.labels.some((box) => sameBox(box, label))) index.add(label, label);
    if (old && sameBox(old.box, part.box)) continue;
    if (Object.values(part.pads).every((p) => p.form === 'splice')) continue;
    const box = inflate(part.box, 9);
    index.add(box, box);
  }
  return index;
}

function sameBox(a: Box, b: Box): boolean {
  return a.x === b.x && a.y === b.y && a.w === b.w && a.h === b.h;
}
