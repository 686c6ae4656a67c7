import type { Results } from '../../advise/types.ts';
import { viewsOf } from '../../analysis/views.ts';
import { inflate, union } from '../../drawing/box.ts';
import { textWidth } from '../../drawing/text.ts';
import type { Box, Primitive } from '../../drawing/types.ts';
import type { Id } from '../../plan/types.ts';
import type { Finding } from '../../rules/types.ts';
import { buildScene } from '../../scene/buildScene.ts';
import { boxOfPrimitive } from '../../scene/labels.ts';
import { TagPlacer } from '../../scene/tags.ts';
import type { PlacedPart, Scene } from '../../scene/types.ts';
import { scenePrimitives } from '../drawing.ts';
import { LEAST_TYPE_U, slip, slipSize } from '../slips.ts';
import { svgOf } from '../svg.ts';
import type { Notes } from './differences.ts';
import { excerpt } from './excerpt.ts';

/**
 * The parts that a finding names.
 * @param far `ends` = also those at the ends of the wires that it names beside its subject
 */
export function partsOf(results: Results, finding: Finding, far: 'named' | 'ends'): Set<Id> {
  const ids = new Set<Id>();
  for (const { id } of [finding.subject, ...finding.related]) {
    const wire = results.filled.wires[id];
    if (results.filled.parts[id]) ids.add(id);
    else if (wire && (far === 'ends' || id === finding.subject.id)) ids.add(wire.from.part).add(wire.to.part);
  }
  return ids;
}

/**
 * Some parts of a plan as a small drawing (SVG text). What the finding is about stands in a heavy frame.
 * @param serial for ids inside the SVG, so that several stand in one page
 */
export function drawExample(results: Results, keep: ReadonlySet<Id>, about: Finding | null, notes: Notes, title: string, serial: number): string {
  const noteU = (id: Id): number => Math.max(0, ...(notes.parts.get(id) ?? []).map((t) => textWidth(t, LEAST_TYPE_U) + 5));
  const tagU = (id: Id): number => (notes.wires.has(id) ? textWidth(notes.wires.get(id)!, LEAST_TYPE_U) + 5 : 0);
  const small = excerpt(results.filled, keep, tagU, noteU);
  const built = buildScene(small.plan, undefined, { kindOf: small.kindOf });
  const texts = new Map([...built.parts].map(([id, part]) => [id, noteLines(part, notes.parts.get(id) ?? [])]));
  const tags = new TagPlacer([...built.parts.values()].flatMap((p) => [p.box, itemBox(p), ...p.labels, ...texts.get(p.id)!.map((t) => t.box)]));
  const wires = new Map(
    [...built.wires].map(([id, w]) => [id, { ...w, tagAt: tags.place(w.points, notes.wires.get(id) ?? '', slipSize(notes.wires.get(id) ?? '')) }]),
  );
  const scene: Scene = { ...built, wires, zones: [], runs: [] };
  const items = new Map([...viewsOf(results.filled)].map(([id, view]) => [id, view.item]));
  const drawn = scenePrimitives(scene, items, scene.bounds, (w) => notes.wires.get(w.id) ?? '');
  const placed = about ? scene.parts.get(about.subject.id) : undefined;
  const box = placed && union([{ ...placed.box, h: placed.box.h + ITEM_U }, ...placed.labels]);
  const frame: Primitive[] = box ? [{ t: 'rect', ...inflate(box, 8), r: 6, ink: 'hazard', lw: 3 }] : [];
  const heavy = about ? scene.wires.get(about.subject.id)?.points : undefined;
  const line: Primitive[] = heavy ? [{ t: 'line', pts: heavy, ink: 'faint', w: 12 }] : [];
  const all = [...line, ...drawn, ...frame, ...[...texts.values()].flat().flatMap((t) => t.drawn)];
  const view = inflate(union(all.map(boxOfPrimitive)), 12);
  const scale = Math.min(MM_PER_U, MOST_MM.w / view.w, MOST_MM.h / view.h);
  return svgOf(all, { view, title, serial, widthMm: view.w * scale, heightMm: view.h * scale });
}

/** At this scale numbers and notes of a drawing have 7.5 pt, mm a drawing unit. */
const MM_PER_U = 0.25;
/** Room for one drawing, so that a pair and its text stand on one page, mm. */
const MOST_MM = { w: 176, h: 80 } as const;
/** From the foot of a body, past its number, to the first line below it; below a ground also past its ring, u. */
const BELOW = { body: 24, ground: 46 } as const;
/** The number of a part stands so far below its body, u. */
const ITEM_U = 12;
const LINE_U = LEAST_TYPE_U + 4;

/** Where the number of a part stands. */
function itemBox({ box }: PlacedPart): Box {
  return { x: box.x - 2, y: box.y + box.h, w: 24, h: ITEM_U };
}

/** Slips of paper below a part. */
function noteLines(part: PlacedPart, lines: readonly string[]): { readonly box: Box; readonly drawn: readonly Primitive[] }[] {
  const { x, y, w, h } = part.box;
  const below = part.pads['31'] && h <= 20 ? BELOW.ground : BELOW.body;
  return lines.map((text, i) => {
    const drawn = slip({ x: x + w / 2, y: y + h + below + i * LINE_U }, text, 'soft');
    return { box: union(drawn.map(boxOfPrimitive)), drawn };
  });
}
