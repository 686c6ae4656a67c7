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
const DETAIL = { tags: 0.42, figures: 0.5 } as const;

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
    painter.all(columnPrimitives(scene.zones, i, box));
    if (zone.box.x <= box.x + box.w && zone.box.x + zone.box.w >= box.x) painter.all(zoneCache(zone, i, s.options));
  });
  const wires = index.wiresIn(box).filter((w) => !hidden.has(w.id));
  for (const wire of wires) painter.all(cachedWire(wire, scene.zones, s.options.edged));
  painter.all(hidden.size === 0 ? jointPrimitives(scene) : standingJoints(scene, hidden));
  const parts = index.partsIn(box);
  for (const part of parts) if (!hidden.has(part.id)) painter.all(part.primitives);
  if (zoom >= DETAIL.tags) for (const wire of wires) painter.all(tagPrimitives(wire));
  painter.all(runPrimitives(scene, s.options));
  if (zoom >= DETAIL.figures) {
    for (const f of s.figures) if (!hidden.has(f.wire)) paintFigure(painter, f);
    for (const part of parts) {
      const open = s.todo[part.id]?.length ?? 0;
      if (open > 0 && !hidden.has(part.id)) painter.all(todoPrimitives(part.box, open));
    }
  }
  painter.all(markPrimitives(s.marks, scene, hidden));
}

/** Figures on their own wire lie on a small plate, those beside it let the ground show round them. */
export function paintFigure(painter: Painter, f: FigureLabel): void {
  if (f.plate) {
    painter.paint({ t: 'rect', ...f.plate, r: 4, fill: 'paper' });
    painter.paint(f.text);
  } else painter.haloed(f.text, 'zone-a');
}

/** Dots of joints, without those at terminals of parts in the hand. */
function standingJoints(scene: Scene, hidden: ReadonlySet<Id>): Primitive[] {
  const gone = new Set<string>();
  for (const id of hidden) for (const pad of Object.values(scene.parts.get(id)?.pads ?? {})) gone.add(`${pad.x},${pad.y}`);
  return jointPrimitives({ joints: scene.joints.filter((p) => !gone.has(`${p.x},${p.y}`)) });
}

/** A zone's ground goes on to the edges of the view: the screen is the vehicle, not a sheet lying in it. */
function columnPrimitives(zones: readonly PlacedZone[], i: number, view: Box): Primitive[] {
  const zone = zones[i] as PlacedZone;
  const left = i === 0 ? Math.min(view.x, zone.box.x) : zone.box.x;
  const right = i === zones.length - 1 ? Math.max(view.x + view.w, zone.box.x + zone.box.w) : zone.box.x + zone.box.w;
  const out: Primitive[] = [{ t: 'rect', x: left, y: view.y, w: right - left, h: view.h, fill: i % 2 === 0 ? 'zone-a' : 'zone-b' }];
  if (i > 0) out.push({ t: 'line', pts: [left, Math.floor(view.y / 14) * 14, left, view.y + view.h], ink: 'faint', w: 1.5, dash: [2, 5], cap: 'round' });
  return out;
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
