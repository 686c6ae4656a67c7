import type { Results } from '../../advise/types.ts';
import { viewsOf } from '../../analysis/views.ts';
import { inflate, union } from '../../drawing/box.ts';
import type { Primitive } from '../../drawing/types.ts';
import type { Id, Plan } from '../../plan/types.ts';
import type { Finding } from '../../rules/types.ts';
import { buildScene } from '../../scene/buildScene.ts';
import { boxOfPrimitive } from '../../scene/labels.ts';
import { scenePrimitives } from '../drawing.ts';
import { svgOf } from '../svg.ts';
import { excerpt } from './excerpt.ts';

/** What a finding speaks of, and the parts at the ends of the wires among it. */
export function partsOf(results: Results, finding: Finding): Set<Id> {
  const ids = new Set<Id>();
  for (const { id } of [finding.subject, ...finding.related]) {
    const wire = results.filled.wires[id];
    if (wire) ids.add(wire.from.part).add(wire.to.part);
    else if (results.filled.parts[id]) ids.add(id);
  }
  return ids;
}

/**
 * Some parts of a plan as a small drawing (SVG text). What the finding is about stands in a heavy frame.
 * @param serial for ids inside the SVG, so that several stand in one page
 */
export function drawExample(results: Results, keep: ReadonlySet<Id>, about: Finding | null, title: string, serial: number): string {
  const small = excerpt(results.filled, keep);
  const built = buildScene(small);
  const wires = new Map([...built.wires].map(([id, w]) => [id, { ...w, tag: measures(small, id) }]));
  const scene = { ...built, wires, zones: [], runs: [] };
  const items = new Map([...viewsOf(results.filled)].map(([id, view]) => [id, view.item]));
  const drawn = scenePrimitives(scene, items);
  const placed = about ? scene.parts.get(about.subject.id) : undefined;
  const box = placed && union([placed.box, ...placed.labels]);
  const frame: Primitive[] = box ? [{ t: 'rect', ...inflate(box, 8), r: 6, ink: 'hazard', lw: 3 }] : [];
  const heavy = about ? scene.wires.get(about.subject.id)?.points : undefined;
  const line: Primitive[] = heavy ? [{ t: 'line', pts: heavy, ink: 'faint', w: 12 }] : [];
  const all = [...line, ...drawn, ...frame];
  const view = inflate(union(all.map(boxOfPrimitive)), 12);
  const scale = Math.min(MM_PER_U, MOST_MM.w / view.w, MOST_MM.h / view.h);
  return svgOf(all, { view, title, serial, widthMm: view.w * scale, heightMm: view.h * scale });
}

/** At this scale the smallest type of a drawing is 8 pt, mm a drawing unit. */
const MM_PER_U = 0.34;
/** Room for one drawing, so that a pair and its text stand on one page, mm. */
const MOST_MM = { w: 176, h: 75 } as const;

/** "0.5 mm² 0.80 m": in an example a wire's number says nothing, its measures may be the point. */
function measures(plan: Plan, id: Id): string {
  const wire = plan.wires[id];
  if (!wire || wire.owner === 'vehicle') return '';
  return [wire.areaMm2 === undefined ? '' : `${wire.areaMm2} mm²`, wire.lengthM === undefined ? '' : `${wire.lengthM.toFixed(2)} m`].filter(Boolean).join(' ');
}
