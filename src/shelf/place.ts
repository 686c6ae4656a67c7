import { settingsOf } from '../parts/definePart.ts';
import { dropSet, partKind, partSets, setPartSettings } from '../parts/index.ts';
import { addPart } from '../plan/edits.ts';
import type { Edit, Id, Part, Plan, Values } from '../plan/types.ts';
import type { ShelfItem } from './catalogue.ts';

const MARGIN = 30;
/** Kept free round a symbol for its name, labels and wires, drawing units. */
const AIR = 40;

export interface Extent {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

function extentOf(part: Pick<Part, 'kind' | 'x' | 'y' | 'turn' | 'settings'>): Extent {
  const kind = partKind(part.kind);
  const s = settingsOf(kind, part.settings);
  const { w, h } = kind.symbol(s, kind.terminals(s));
  return part.turn % 2 === 0 ? { x: part.x, y: part.y, w, h } : { x: part.x, y: part.y, w: h, h: w };
}

/** The first place in a zone, going down from its top left, where a box of that size clears what lies there. */
export function freeSpot(taken: readonly Extent[], w: number, h: number): { readonly x: number; readonly y: number } {
  const clear = (x: number, y: number) => taken.every((t) => x >= t.x + t.w + AIR || t.x >= x + w + AIR || y >= t.y + t.h + AIR || t.y >= y + h + AIR);
  for (let column = 0; column < 40; column++) {
    const x = MARGIN + column * 40;
    for (let y = MARGIN; y <= 600; y += 20) if (clear(x, y)) return { x, y };
  }
  const below = Math.max(0, ...taken.map((t) => t.y + t.h));
  return { x: MARGIN, y: below + AIR };
}

/** Puts a part or set into a zone where there is room; for keyboard and screen reader. */
export function placeInZone(plan: Plan, item: ShelfItem, zone: Id): { readonly edit: Edit; readonly parts: readonly Id[] } {
  const taken = Object.values(plan.parts)
    .filter((p) => p.zone === zone)
    .map(extentOf);
  if (item.type === 'part') {
    const kind = partKind(item.id);
    const settings: Values = kind.variants?.find((v) => v.id === item.variant)?.settings ?? {};
    const size = extentOf({ kind: item.id, x: 0, y: 0, turn: 0, settings });
    const { edit, id } = addPart(
      plan,
      { kind: item.id, zone, ...freeSpot(taken, size.w, size.h), settings, owner: kind.owner ?? 'build' },
      `Add ${item.title}`,
    );
    return { edit, parts: [id] };
  }
  const set = partSets.get(item.id);
  if (!set) throw new Error(`no set "${item.id}"`);
  const boxes = set.parts.map((p) => extentOf({ kind: p.kind, x: p.x, y: p.y, turn: p.turn ?? 0, settings: setPartSettings(p, plan.vehicle.systemV) }));
  const left = Math.min(...boxes.map((b) => b.x));
  const top = Math.min(...boxes.map((b) => b.y));
  const spot = freeSpot(taken, Math.max(...boxes.map((b) => b.x + b.w)) - left, Math.max(...boxes.map((b) => b.y + b.h)) - top);
  const { edit, ids } = dropSet(plan, item.id, zone, spot.x - left, spot.y - top);
  return { edit, parts: Object.values(ids) };
}
