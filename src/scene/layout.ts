import { textWidth } from '../drawing/text.ts';
import type { Plan } from '../plan/types.ts';
import { zoneClimate } from '../trade/zones.ts';
import type { LocalPart } from './symbols.ts';
import type { PlacedZone } from './types.ts';

/** Measures of the zone columns, u. */
export const ZONE = {
  /** Strip at the top with name and temperature; parts begin below it. */
  head: 80,
  minW: 170,
  /** Widths are whole steps. */
  step: 20,
  minH: 600,
  /** Room for wires right of the rightmost part and below the lowest. */
  padX: 40,
  padBottom: 70,
  /** From the chassis bar's top to the zone's foot. */
  foot: 50,
  barH: 8,
  barInset: 10,
} as const;

/** Zone ids from left to right. */
export function zoneOrder(plan: Plan): readonly string[] {
  return Object.values(plan.zones)
    .sort((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1))
    .map((z) => z.id);
}

/**
 * The zones as columns side by side, each as wide as its parts need, all of one height, with the chassis bar at the
 * foot. World x of a part is its zone's left edge plus its own x; world y is `ZONE.head` plus its own y.
 */
export function layZones(plan: Plan, locals: ReadonlyMap<string, LocalPart>): readonly PlacedZone[] {
  const needW = new Map<string, number>();
  let bottom = 0;
  for (const part of Object.values(plan.parts)) {
    const local = locals.get(part.id);
    if (!local) continue;
    const right = Math.max(local.w, ...local.outside.map((b) => b.x + b.w));
    needW.set(part.zone, Math.max(needW.get(part.zone) ?? 0, part.x + right));
    if (!local.onBar) bottom = Math.max(bottom, part.y + local.h);
  }
  const up = (v: number) => Math.ceil(v / ZONE.step) * ZONE.step;
  const h = Math.max(ZONE.minH, up(ZONE.head + bottom + ZONE.padBottom + ZONE.foot));
  let x = 0;
  return zoneOrder(plan).map((id) => {
    const zone = plan.zones[id] as Plan['zones'][string];
    const title = textWidth(zone.name, 14, true) + 70;
    const leastW = Math.max(ZONE.minW, up(title), up((needW.get(id) ?? 0) + ZONE.padX));
    const w = Math.max(leastW, zone.width === null ? 0 : up(zone.width));
    const box = { x, y: 0, w, h };
    x += w;
    return {
      id,
      name: zone.name,
      box,
      leastW,
      maxC: zone.maxC ?? zoneClimate(zone.kind).maxC,
      bar: { x: box.x + ZONE.barInset, y: h - ZONE.foot, w: w - 2 * ZONE.barInset, h: ZONE.barH },
    };
  });
}

/** The zone whose column holds a world x; the nearest one outside all. */
export function zoneAt(zones: readonly PlacedZone[], x: number): PlacedZone | undefined {
  return zones.find((z) => x < z.box.x + z.box.w) ?? zones[zones.length - 1];
}
