import { inflate } from '../drawing/box.ts';
import { LANE, LaneMap } from '../drawing/lanes.ts';
import { outward } from '../drawing/polyline.ts';
import type { RouteEnd } from '../drawing/route.ts';
import type { Box } from '../drawing/types.ts';
import type { Plan, Wire } from '../plan/types.ts';
import { ZONE } from './layout.ts';
import type { PlacedPad, PlacedPart, PlacedZone } from './types.ts';

/** What routes rather keep off, cost per lane step; weighed against the costs in drawing/lanes.ts. Our own choice. */
const SOFT = { border: 8, head: 60, label: 140, beside: 4, pad: 40, joint: 120 } as const;

/**
 * Lanes are laid over so much of a drawing, u: several times what thousands of parts need. A hand-written file may place a
 * part far beyond; lanes all the way there would take more memory than a page has. Out there wires run straight.
 */
const LAID = { w: 16_000, h: 8_000 } as const;

/** Half the width of a common wire: one on the lane beside a label must not touch it, u. */
const LABEL_MARGIN_U = 2;

/** Lanes of a whole plan: parts and chassis bars blocked; labels, borders, headings and terminals made dear. */
export function lanesOf(zones: readonly PlacedZone[], parts: Iterable<PlacedPart>, skip?: ReadonlySet<string>): LaneMap {
  const last = zones[zones.length - 1];
  const width = last ? last.box.x + last.box.w : 0;
  const height = last ? last.box.h : 0;
  const map = new LaneMap({ x: -20, y: 0, w: Math.min(LAID.w, width + 40), h: Math.min(LAID.h, height) });
  for (const zone of zones) {
    map.block(zone.bar);
    if (zone.box.x > 0) map.soften({ x: zone.box.x, y: 0, w: 0, h: height }, SOFT.border);
  }
  map.soften({ x: -20, y: 0, w: width + 40, h: ZONE.head - 1 }, SOFT.head);
  for (const part of parts) if (!skip?.has(part.id)) addPart(map, part);
  return map;
}

/** Puts one part onto the lanes. */
export function addPart(map: LaneMap, part: PlacedPart): void {
  const pads = Object.values(part.pads);
  if (pads.every((p) => p.form === 'splice')) {
    for (const p of pads) map.soften({ x: p.x, y: p.y, w: 0, h: 0 }, SOFT.joint);
    return;
  }
  const body = bodyOf(part);
  map.block(body);
  map.soften(inflate(body, LANE), SOFT.beside);
  for (const p of pads) {
    const o = outward(p.side);
    map.soften({ x: p.x + o.x * LANE, y: p.y + o.y * LANE, w: 0, h: 0 }, SOFT.pad);
  }
  for (const box of part.labels) map.soften(inflate(box, LABEL_MARGIN_U), SOFT.label);
}

/** A stud on the bar blocks only its own lead. */
function bodyOf(part: PlacedPart): Box {
  const pads = Object.values(part.pads);
  const only = pads.length === 1 ? pads[0] : undefined;
  return only && only.form === 'ring' && part.box.h <= 20 ? { x: only.x, y: only.y, w: 0, h: part.box.h } : part.box;
}

/** The router's view of a pad. */
export function routeEnd(pad: PlacedPad | undefined, part: PlacedPart | undefined): RouteEnd | null {
  if (pad) return { x: pad.x, y: pad.y, side: pad.form === 'splice' ? 'any' : pad.side };
  return part ? { x: part.box.x, y: part.box.y + Math.round(part.box.h / 20) * 10, side: 'left' } : null;
}

/** Both ends of a wire on placed parts; null when a part is not on the plan. */
export function endsOf(wire: Wire, parts: ReadonlyMap<string, PlacedPart>): readonly [RouteEnd, RouteEnd] | null {
  const a = parts.get(wire.from.part);
  const b = parts.get(wire.to.part);
  const from = routeEnd(a?.pads[wire.from.terminal], a);
  const to = routeEnd(b?.pads[wire.to.terminal], b);
  return from && to ? [from, to] : null;
}

/** Terminals in use by part, as `localPart` wants them: sorted ids joined by commas. */
export function usedTerminals(plan: Plan): ReadonlyMap<string, string> {
  const sets = new Map<string, Set<string>>();
  const add = (part: string, terminal: string): void => {
    const set = sets.get(part);
    if (set) set.add(terminal);
    else sets.set(part, new Set([terminal]));
  };
  for (const wire of Object.values(plan.wires)) {
    add(wire.from.part, wire.from.terminal);
    add(wire.to.part, wire.to.terminal);
  }
  return new Map([...sets].map(([id, set]) => [id, [...set].sort().join(',')]));
}
