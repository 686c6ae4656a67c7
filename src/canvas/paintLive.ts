import { inflate } from '../drawing/box.ts';
import type { Box, Ink } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { tagPrimitives } from '../scene/picture.ts';
import type { PlacedPart, Scene } from '../scene/types.ts';
import type { Selection } from '../state/types.ts';
import type { FigureLabel } from './figureLabels.ts';
import type { InkTable } from './inks.ts';
import type { Live } from './live.ts';
import type { Painter } from './painter.ts';
import { cachedWire, paintFigure } from './paintScene.ts';
import type { ShownEdge } from './zoneEdge.ts';

/** The grip on a zone's edge, px. */
const GRIP_PX = { w: 14, h: 44 } as const;

export interface LiveScene {
  readonly scene: Scene;
  readonly live: Live;
  readonly selection: Selection;
  readonly pointed: Selection;
  /** Buttons held down. */
  readonly pressed: readonly Id[];
  /** Terminal chosen as the beginning of a wire. */
  readonly wiringFrom: { readonly part: Id; readonly terminal: string } | null;
  readonly figures: readonly FigureLabel[];
  readonly inks: InkTable;
  /** Edge of a zone that is shown. */
  readonly edge: ShownEdge | null;
}

/** Paints the live layer: what is in the hand, what is chosen, what is pointed at. */
export function paintLive(painter: Painter, s: LiveScene, zoom: number): void {
  const { live, scene } = s;
  const px = 1 / zoom;
  for (const id of s.pointed.parts) outline(painter, scene.parts.get(id), 5, 'accent', 2.5 * px, 0.18);
  for (const id of s.pointed.wires) halo(painter, scene.wires.get(id)?.points, 12, 0.3);
  for (const id of s.selection.wires) if (!live.hidden.has(id)) halo(painter, scene.wires.get(id)?.points, 10, 0.32);
  for (const id of s.selection.parts) if (!live.hidden.has(id)) outline(painter, scene.parts.get(id), 4, 'accent', 1.5 * px, 0);
  for (const id of s.pressed) if (!live.hidden.has(id)) heldDown(painter, scene.parts.get(id));
  if (live.dropWire) halo(painter, scene.wires.get(live.dropWire)?.points, 14, 0.35);
  if (live.bent) bent(painter, s);
  if (live.drag) drag(painter, s, px);
  for (const p of live.targets) painter.paint({ t: 'circle', x: p.x, y: p.y, r: 6, ink: 'accent', lw: 1.5 * px });
  const from = s.wiringFrom && scene.parts.get(s.wiringFrom.part)?.pads[s.wiringFrom.terminal];
  if (from) painter.paint({ t: 'circle', x: from.x, y: from.y, r: 6, fill: 'accent', ink: 'paper', lw: 1.5 });
  const hover = live.hover && scene.parts.get(live.hover.part)?.pads[live.hover.terminal];
  if (hover) painter.paint({ t: 'circle', x: hover.x, y: hover.y, r: 5.5, ink: 'accent', lw: 2 * px });
  if (live.rubber) painter.paint({ t: 'line', pts: live.rubber, ink: 'accent', w: 2.5, cap: 'round' });
  if (live.target) painter.paint({ t: 'circle', x: live.target.x, y: live.target.y, r: 6, fill: 'accent', ink: 'paper', lw: 1.5 });
  if (live.ghost) ghost(painter, live.ghost, px);
  for (const f of s.figures) paintFigure(painter, f);
  if (live.box) lasso(painter, live.box, px);
  if (s.edge) zoneEdge(painter, s.edge, px);
}

function outline(painter: Painter, part: PlacedPart | undefined, by: number, ink: Ink, lw: number, wash: number): void {
  if (!part) return;
  const box = inflate(part.box, by);
  if (wash > 0) {
    painter.c.globalAlpha = wash;
    painter.paint({ t: 'rect', ...box, r: 7, fill: ink });
    painter.c.globalAlpha = 1;
  }
  painter.paint({ t: 'rect', ...box, r: 7, ink, lw });
}

/** A button that is down says so, over its body. */
function heldDown(painter: Painter, part: PlacedPart | undefined): void {
  if (!part) return;
  outline(painter, part, 5, 'accent', 2.5, 0.18);
  const { x, y, w } = part.box;
  painter.paint({ t: 'rect', x: x + w / 2 - 25, y: y - 21, w: 50, h: 15, r: 4, fill: 'accent' });
  painter.paint({ t: 'text', x: x + w / 2, y: y - 10, text: 'pressed', size: 11, ink: 'paper', anchor: 'middle', bold: true });
}

function halo(painter: Painter, points: readonly number[] | undefined, w: number, alpha: number): void {
  if (!points) return;
  painter.c.globalAlpha = alpha;
  painter.paint({ t: 'line', pts: points, ink: 'accent', w, cap: 'round' });
  painter.c.globalAlpha = 1;
}

function drag(painter: Painter, s: LiveScene, px: number): void {
  const d = s.live.drag;
  if (!d) return;
  for (const wire of d.wires) painter.all(cachedWire(wire, s.scene.zones, s.inks.edged));
  painter.c.translate(d.dx, d.dy);
  for (const part of d.parts) painter.all(part.primitives);
  for (const part of d.parts) {
    outline(painter, part, 4, 'accent', 1.5 * px, 0);
    ticks(painter, part.box, px);
  }
  painter.c.translate(-d.dx, -d.dy);
  for (const wire of d.wires) painter.all(tagPrimitives(wire));
}

/** Short ticks where the corner has snapped to. */
function ticks(painter: Painter, { x, y }: Box, px: number): void {
  painter.paint({ t: 'line', pts: [x - 16, y, x - 8, y], ink: 'accent', w: 1.5 * px });
  painter.paint({ t: 'line', pts: [x, y - 16, x, y - 8], ink: 'accent', w: 1.5 * px });
}

function bent(painter: Painter, s: LiveScene): void {
  const { bent } = s.live;
  const wire = bent && s.scene.wires.get(bent.id);
  if (!bent || !wire) return;
  halo(painter, bent.points, 10, 0.32);
  painter.paint({ t: 'line', pts: bent.points, ink: wire.ink, w: wire.width });
}

/** A line from top to foot of the view, what it gains or gives up, and the grip. */
function zoneEdge(painter: Painter, { x, from, view, grip }: ShownEdge, px: number): void {
  if (from !== null && from !== x) {
    painter.c.globalAlpha = 0.1;
    painter.paint({ t: 'rect', x: Math.min(x, from), y: view.y, w: Math.abs(x - from), h: view.h, fill: 'accent' });
    painter.c.globalAlpha = 1;
  }
  painter.paint({ t: 'line', pts: [x, view.y, x, view.y + view.h], ink: 'accent', w: (from === null ? 1.25 : 2) * px });
  if (!grip) return;
  const [w, h] = [GRIP_PX.w * px, GRIP_PX.h * px];
  painter.paint({ t: 'rect', x: grip.x - w / 2, y: grip.y - h / 2, w, h, r: w / 2, fill: 'paper', ink: 'accent', lw: 1.5 * px });
  for (const by of [-2 * px, 2 * px])
    painter.paint({ t: 'line', pts: [grip.x + by, grip.y - h / 5, grip.x + by, grip.y + h / 5], ink: 'accent', w: 1.5 * px, cap: 'round' });
}

function ghost(painter: Painter, g: NonNullable<Live['ghost']>, px: number): void {
  painter.c.translate(g.x, g.y);
  painter.c.globalAlpha = 0.75;
  painter.all(g.primitives);
  painter.c.globalAlpha = 1;
  ticks(painter, { x: 0, y: 0, w: 0, h: 0 }, px);
  painter.c.translate(-g.x, -g.y);
}

function lasso(painter: Painter, box: Box, px: number): void {
  painter.c.globalAlpha = 0.08;
  painter.paint({ t: 'rect', ...box, fill: 'accent' });
  painter.c.globalAlpha = 1;
  painter.paint({ t: 'rect', ...box, ink: 'accent', lw: px });
}
