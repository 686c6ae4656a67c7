import { inflate, overlaps, union } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import { LANE } from '../drawing/lanes.ts';
import { outward } from '../drawing/polyline.ts';
import type { Box } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { LocalPart, Look } from './symbols.ts';
import type { PlacedZone } from './types.ts';

/** A part at its place, before it is known where its label stands. */
export interface Standing {
  readonly id: Id;
  readonly local: LocalPart;
  readonly x: number;
  readonly y: number;
  /** Its wired terminals, joined by commas. */
  readonly used: string;
}

/**
 * Which picture of a part is drawn: the one with its label at another place, where at its own it would lie on a
 * neighbour, on a neighbour's label or where a neighbour's wire has to begin. A function of the plan alone: the same
 * plan has the same drawing, whatever was drawn before.
 * @returns number of the place among `others` of each part that needs it
 */
export function labelPlaces(parts: readonly Standing[], zones: readonly PlacedZone[]): ReadonlyMap<Id, number> {
  const moved = new Map<Id, number>();
  const movable = parts.filter((p) => p.local.others);
  if (movable.length === 0) return moved;
  const index = new GridIndex<Standing>();
  for (const p of parts) {
    const looks: readonly Look[] = [p.local, ...(p.local.others ?? [])];
    index.add(p, inflate(at(p, union([bodyOf(p.local), ...looks.flatMap((l) => l.outside)])), STUB_U));
  }
  const isFree = (part: Standing, box: Box): boolean => !index.near(box).some((other) => other !== part && covers(other, lookOf(other, moved), box));
  for (const part of movable) {
    const { local } = part;
    if (local.outside.every((box) => isFree(part, at(part, box)))) continue;
    const found = local.others?.findIndex((look) => look.outside.every((box) => inOneZone(at(part, box), zones) && isFree(part, at(part, box)))) ?? -1;
    if (found >= 0) moved.set(part.id, found);
  }
  return moved;
}

function lookOf({ id, local }: Standing, moved: ReadonlyMap<Id, number>): Look {
  return local.others?.[moved.get(id) ?? -1] ?? local;
}

const bodyOf = ({ w, h }: LocalPart): Box => ({ x: 0, y: 0, w, h });

const at = ({ x, y }: Standing, box: Box): Box => ({ x: box.x + x, y: box.y + y, w: box.w, h: box.h });

/** Does a part stand on the box, with its body, its label or the first piece of one of its wires? */
function covers(part: Standing, look: Look, box: Box): boolean {
  const { local } = part;
  if (overlaps(at(part, bodyOf(local)), box) || look.outside.some((label) => overlaps(at(part, label), box))) return true;
  return part.used.split(',').some((id) => {
    const pad = local.pads[id];
    if (!pad || pad.form === 'splice') return false;
    const o = outward(pad.side);
    const [dx, dy] = [o.x * STUB_U, o.y * STUB_U];
    const stub = { x: Math.min(pad.x, pad.x + dx), y: Math.min(pad.y, pad.y + dy), w: Math.abs(dx), h: Math.abs(dy) };
    return overlaps(inflate(at(part, stub), STUB_HALF_U), box);
  });
}

/** Room in front of a wired terminal in which its wire turns beside that of the next terminal: two lanes, u. */
const STUB_U = 2 * LANE;
const STUB_HALF_U = 2;

function inOneZone(box: Box, zones: readonly PlacedZone[]): boolean {
  return zones.some((z) => box.x >= z.box.x && box.x + box.w <= z.box.x + z.box.w && box.y >= z.box.y && box.y + box.h <= z.bar.y);
}
