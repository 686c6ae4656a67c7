import { inflate, overlaps } from '../drawing/box.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import { boxOfPrimitive } from '../scene/labels.ts';
import type { PlacedPart } from '../scene/types.ts';
import { LEAST_TYPE_U } from './slips.ts';

type Text = Primitive & { readonly t: 'text' };

/** Room between a terminal's label and the name beside it, as much as there is, u. */
const CLEAR_U = [3, 1, 0];
const STEP_U = 1;
/** A name further from the middle than this would seem to belong to something else, u. */
const MOST_U = 16;

/** Small type as it stands on paper. */
export function readable(p: Primitive): Primitive {
  return p.t === 'text' && p.size < LEAST_TYPE_U ? { ...p, size: LEAST_TYPE_U } : p;
}

/** The part with its name moved sideways where the labels of its terminals, larger on paper than on screen, come too near. */
export function clearName(part: PlacedPart): PlacedPart {
  const texts = part.primitives.filter((p): p is Text => p.t === 'text');
  const isName = (p: Primitive): p is Text => p.t === 'text' && p.anchor === 'middle' && isInside(boxOfPrimitive(p), part.box);
  const names = texts.filter(isName);
  const others = texts.filter((p) => !isName(p)).map((p) => boxOfPrimitive(readable(p)));
  const isClear = (dx: number, room: number): boolean =>
    names.every((name) => {
      const box = boxOfPrimitive(readable({ ...name, x: name.x + dx }));
      return isInside(box, part.box) && !others.some((other) => overlaps(inflate(other, room), box));
    });
  for (const room of CLEAR_U) {
    if (isClear(0, room)) return part;
    for (let by = STEP_U; by <= MOST_U; by += STEP_U)
      for (const dx of [by, -by]) if (isClear(dx, room)) return { ...part, primitives: part.primitives.map((p) => (isName(p) ? { ...p, x: p.x + dx } : p)) };
  }
  return part;
}

function isInside(box: Box, body: Box): boolean {
  return box.x >= body.x && box.y >= body.y && box.x + box.w <= body.x + body.w && box.y + box.h <= body.y + body.h;
}
