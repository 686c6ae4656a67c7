import type { Box, Ink, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { jointPrimitives, type PictureOptions, runPrimitives, tagPrimitives, wirePrimitives, zonePrimitives } from '../scene/picture.ts';
import type { PlacedWire, PlacedZone, Scene } from '../scene/types.ts';
import type { FigureLabel } from './figureLabels.ts';
import type { Mark } from './marks.ts';
import { markPrimitives } from './marks.ts';
import type { Painter } from './painter.ts';
import type { SceneIndex } from './sceneIndex.ts';

/** Below these zooms small things are left out: they could not be read, and a whole plan must stay quick to draw. */
const DETAIL = { tags: 0.42, texts: 0.4 } as const;

export interface Standing {
  readonly scene: Scene;
  readonly index: SceneIndex;
  /** Parts and wires that are on the live layer. */
  readonly hidden: ReadonlySet<Id>;
  readonly figures: readonly FigureLabel[];
  readonly marks: readonly Mark[];
  /** Open points per part: loose terminals and facts not yet given. */
  readonly todo: Readonly<Record<Id, readonly string[]>>;
  readonly options: PictureOptions;
}

/** Paints what stands still inside a world box. The context is scaled to world units. */
export function paintScene(painter: Painter, s: Standing, box: Box, zoom: number): void {
  const { scene, index, hidden } = s;
  scene.zones.forEach((zone, i) => {
    if (zone.box.x > box.x + box.w || zone.box.x + zone.box.w < box.x) return;
    painter.all(zoneCache(zone, i, s.options));
  });
  const wires = index.wiresIn(box).filter((w) => !hidden.has(w.id));
  for (const wire of wires) painter.all(cachedWire(wire, scene.zones, s.options.edged));
  painter.all(jointPrimitives(scene));
  const parts = index.partsIn(box);
  for (const part of parts) if (!hidden.has(part.id)) painter.all(part.primitives);
  if (zoom >= DETAIL.tags) for (const wire of wires) painter.all(tagPrimitives(wire));
  painter.all(runPrimitives(scene, s.options));
  if (zoom >= DETAIL.texts) {
    for (const f of s.figures) if (!hidden.has(f.wire)) painter.paint(f.text);
    for (const part of parts) {
      const open = s.todo[part.id]?.length ?? 0;
      if (open > 0 && !hidden.has(part.id)) painter.all(todoPrimitives(part.box, open));
    }
  }
  painter.all(markPrimitives(s.marks, scene, hidden));
}

/** A quiet count at the lower right corner. */
function todoPrimitives(box: Box, count: number): Primitive[] {
  const x = box.x + box.w;
  const y = box.y + box.h;
  return [
    { t: 'circle', x, y, r: 6.5, fill: 'paper', ink: 'soft', lw: 0.8 },
    { t: 'text', x, y: y + 3, text: count > 9 ? '9+' : String(count), size: 8, ink: 'soft', anchor: 'middle' },
  ];
}

const wireMemo = new WeakMap<PlacedWire, { readonly zones: readonly PlacedZone[]; readonly edged: ReadonlySet<Ink> | undefined; readonly list: Primitive[] }>();

/** A wire's primitives, worked out once for each wire object and theme. */
export function cachedWire(wire: PlacedWire, zones: readonly PlacedZone[], edged: ReadonlySet<Ink> | undefined): readonly Primitive[] {
  const known = wireMemo.get(wire);
  if (known && known.zones === zones && known.edged === edged) return known.list;
  const list = wirePrimitives(wire, zones, edged ? { edged } : {});
  wireMemo.set(wire, { zones, edged, list });
  return list;
}

const zoneMemo = new WeakMap<PlacedZone, { readonly options: PictureOptions; readonly list: Primitive[] }>();

function zoneCache(zone: PlacedZone, i: number, options: PictureOptions): readonly Primitive[] {
  const known = zoneMemo.get(zone);
  if (known && known.options === options) return known.list;
  const list = zonePrimitives(zone, i, options);
  zoneMemo.set(zone, { options, list });
  return list;
}
