import { dropSet, partKind, partSets, setPartSettings } from '../parts/index.ts';
import { extentOf, freeSpot } from '../parts/spot.ts';
import { addPart, zoneOrder } from '../plan/edits.ts';
import type { Edit, Id, Plan, Values } from '../plan/types.ts';
import type { ShelfItem } from './catalogue.ts';

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

/** Where the next part most likely belongs: beside the one that is chosen, else where most of the build stands; the first zone before there is any. */
export function likelyZone(plan: Plan, chosen: readonly Id[]): Id {
  const beside = chosen.length === 1 ? plan.parts[chosen[0] ?? '']?.zone : undefined;
  if (beside !== undefined && plan.zones[beside]) return beside;
  const built = Object.values(plan.parts).filter((p) => p.owner === 'build');
  const parts = (zone: Id): number => built.filter((p) => p.zone === zone).length;
  return zoneOrder(plan).reduce((most, z) => (most !== '' && parts(z) <= parts(most) ? most : z), '');
}
