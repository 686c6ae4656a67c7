import { snap } from '../drawing/box.ts';
import { settingsOf } from '../parts/definePart.ts';
import type { PartKind } from '../parts/types.ts';
import { apply, merge } from '../plan/apply.ts';
import { wiresOfPart } from '../plan/connect.ts';
import { type NewPart, removeItems, splitWire } from '../plan/edits.ts';
import type { Edit, Id, Part, Plan, Values } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';
import { placeAt } from './commands.ts';
import { nearestOn } from './sceneIndex.ts';

/** A part that sits in a wire: its two ends, on opposite sides when unturned, and its body. */
export interface InlineShape {
  readonly left: string;
  readonly right: string;
  readonly w: number;
  readonly h: number;
  /** Height of the pads above the foot of the unturned body. */
  readonly padY: number;
}

/** Can this kind be cut into a wire? Then its shape. */
export function inlineShape(kind: PartKind, settings: Values): InlineShape | null {
  const s = settingsOf(kind, settings);
  const terminals = kind.terminals(s);
  if (terminals.length !== 2) return null;
  const left = terminals.find((t) => t.side === 'left');
  const right = terminals.find((t) => t.side === 'right');
  if (!left || !right) return null;
  const symbol = kind.symbol(s, terminals);
  const [a, b] = [symbol.pads[left.id], symbol.pads[right.id]];
  return a && b && a.y === b.y ? { left: left.id, right: right.id, w: symbol.w, h: symbol.h, padY: a.y } : null;
}

/** A part as it would sit in a wire at a point. */
export interface CutPlace {
  readonly zone: Id;
  readonly x: number;
  readonly y: number;
  readonly turn: Part['turn'];
  readonly inTerminal: string;
  readonly outTerminal: string;
}

/** Where and how a part would be cut into a wire nearest to a world point; its ends follow the wire's direction. */
export function cutPlace(scene: Scene, wireId: Id, shape: InlineShape, x: number, y: number): CutPlace | null {
  const wire = scene.wires.get(wireId);
  if (!wire) return null;
  const at = nearestOn(wire.points, x, y);
  const [w, h] = at.lying ? [shape.w, shape.h] : [shape.h, shape.w];
  // Turned once clockwise the left end is on top; the pads' line must lie on the wire.
  const padAcross = at.lying ? shape.padY : shape.h - shape.padY;
  const left = at.lying ? at.x - w / 2 : at.x - padAcross;
  const top = at.lying ? at.y - padAcross : at.y - h / 2;
  const place = placeAt(scene, snap(left), snap(top), w);
  if (!place) return null;
  const forward = headsForward(wire.points, at.x, at.y, at.lying);
  return {
    ...place,
    turn: at.lying ? 0 : 1,
    inTerminal: forward ? shape.left : shape.right,
    outTerminal: forward ? shape.right : shape.left,
  };
}

/** Does the wire run to the right (or down) at this point? */
function headsForward(p: readonly number[], x: number, y: number, lying: boolean): boolean {
  for (let i = 0; i + 3 < p.length; i += 2) {
    const [x0, y0, x1, y1] = [p[i] as number, p[i + 1] as number, p[i + 2] as number, p[i + 3] as number];
    if (lying && y0 === y && y1 === y && (x - x0) * (x - x1) <= 0) return x1 >= x0;
    if (!lying && x0 === x && x1 === x && (y - y0) * (y - y1) <= 0) return y1 >= y0;
  }
  return true;
}

/** The edit that cuts a new part in. */
export function cutNew(plan: Plan, wireId: Id, part: Pick<NewPart, 'kind' | 'settings' | 'owner'>, place: CutPlace): { readonly edit: Edit; readonly id: Id } {
  const { inTerminal, outTerminal, ...where } = place;
  return splitWire(plan, wireId, { ...part, ...where }, inTerminal, outTerminal);
}

/** The edit that cuts a loose part of the plan in; null when it has wires already. */
export function cutExisting(plan: Plan, wireId: Id, id: Id, place: CutPlace): { readonly edit: Edit; readonly id: Id } | null {
  const part = plan.parts[id];
  if (!part || wiresOfPart(plan, id).length > 0) return null;
  const away = removeItems(plan, [id]);
  const without = apply(plan, away);
  if (!without.ok) return null;
  const { inTerminal, outTerminal, ...where } = place;
  const { kind, settings, owner, name, note } = part;
  const again = { kind, settings, owner, ...(name === undefined ? {} : { name }), ...(note === undefined ? {} : { note }) };
  const cut = splitWire(without.plan, wireId, { ...again, ...where }, inTerminal, outTerminal);
  return { edit: merge(away, cut.edit), id: cut.id };
}
