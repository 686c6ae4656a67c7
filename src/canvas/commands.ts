import { snap } from '../drawing/box.ts';
import { merge } from '../plan/apply.ts';
import { type Clip, copyItems, pasteClip } from '../plan/copy.ts';
import { addWire, type Move, moveParts, removeItems, setWire, spliceWire, turnParts } from '../plan/edits.ts';
import type { Edit, End, Id, Plan } from '../plan/types.ts';
import { bendsInZones, bendsOnDrawing } from '../scene/bends.ts';
import { ZONE, zoneAt } from '../scene/layout.ts';
import type { Scene } from '../scene/types.ts';
import type { App } from '../state/store.ts';
import { whyNot } from './sensibleEnds.ts';

/** What gestures and keys do to the plan: each one edit, one entry of undo. Refusals are told to the person. */

/** Least distance of a part from its zone's left edge, u. */
const EDGE = 10;

export function commit(app: App, edit: Edit): boolean {
  if (edit.changes.length === 0) return false;
  const done = app.getState().apply(edit);
  if (!done.ok) app.getState().setNotice({ kind: 'problem', text: `${edit.label}: ${done.reason}.` });
  return done.ok;
}

/** Zone and place inside it for a body whose top left corner is at a world point; the middle of the body decides. */
export function placeAt(scene: Scene, x: number, y: number, w: number): { readonly zone: Id; readonly x: number; readonly y: number } | null {
  const zone = zoneAt(scene.zones, x + w / 2);
  return zone ? { zone: zone.id, x: Math.max(EDGE, snap(x - zone.box.x)), y: Math.max(0, snap(y - ZONE.head)) } : null;
}

/** The edit that moves parts by so much on the drawing, each into the zone it then lies in; bends between them go along. */
export function moveEdit(plan: Plan, scene: Scene, ids: readonly Id[], dx: number, dy: number): Edit {
  const moves = ids.flatMap((id): Move[] => {
    const placed = scene.parts.get(id);
    const part = plan.parts[id];
    const to = placed && placeAt(scene, placed.box.x + dx, placed.box.y + dy, placed.box.w);
    // A stud stays on its chassis bar: only sideways.
    const standing = placed && part && placed.box.y !== ZONE.head + part.y;
    return to ? [{ id, ...to, y: standing && part ? part.y : to.y }] : [];
  });
  let edit = moveParts(plan, moves);
  const gone = new Set(ids);
  for (const wire of Object.values(plan.wires)) {
    if (!wire.bends || !gone.has(wire.from.part) || !gone.has(wire.to.part)) continue;
    const points = bendsOnDrawing(wire.bends, scene.zones).map((b) => ({ x: b.x + dx, y: b.y + dy }));
    const bent = setWire(plan, wire.id, { bends: bendsInZones(points, scene.zones) });
    edit = { ...merge(edit, bent), intent: edit.intent, label: edit.label };
  }
  return edit;
}

/** Are both ends the vehicle's own? Then so is the wire. */
function ownerOf(plan: Plan, a: End, b: End): 'vehicle' | 'build' {
  const outside = (e: End) => plan.parts[e.part]?.owner === 'vehicle' && e.terminal !== 'out' && e.terminal !== 'aux';
  return outside(a) && outside(b) ? 'vehicle' : 'build';
}

export function joinEnds(app: App, a: End, b: End): boolean {
  const { plan, setNotice, select } = app.getState();
  if (!plan) return false;
  const reason = whyNot(plan, a, b);
  if (reason !== null) {
    setNotice({ kind: 'problem', text: reason });
    return false;
  }
  const { edit, id } = addWire(plan, a, b, { owner: ownerOf(plan, a, b) });
  const done = commit(app, edit);
  if (done) select({ parts: [], wires: [id] });
  return done;
}

/** Joins a terminal to the middle of a wire: cuts in a splice there. */
export function joinToWire(app: App, scene: Scene, from: End, wireId: Id, x: number, y: number): boolean {
  const { plan, setNotice, select } = app.getState();
  const wire = plan?.wires[wireId];
  if (!plan || !wire) return false;
  if (wire.owner === 'vehicle') {
    setNotice({ kind: 'problem', text: "The vehicle's own leads stay as they are. Join the build at a feed, or place a feed where you tap." });
    return false;
  }
  if (wire.fitted) {
    setNotice({ kind: 'problem', text: 'That wire is fitted. Take the mark “fitted” off before you cut a splice into it.' });
    return false;
  }
  const at = placeAt(scene, snap(x) - 10, snap(y) - 10, 20);
  if (!at) return false;
  const cut = spliceWire(plan, wireId, from, at);
  const done = commit(app, cut.edit);
  if (done) select({ parts: [], wires: [cut.third] });
  return done;
}

export function removeSelection(app: App): void {
  const { plan, selection } = app.getState();
  if (!plan || selection.parts.length + selection.wires.length === 0) return;
  commit(app, removeItems(plan, selection.parts, selection.wires));
}

export function turnSelection(app: App): void {
  const { plan, selection } = app.getState();
  if (!plan) return;
  if (selection.parts.length > 0) commit(app, turnParts(plan, selection.parts));
}

/** Gives wires bent by hand back to the router. */
export function straightenSelection(app: App): void {
  const { plan, selection } = app.getState();
  const bent = plan ? selection.wires.filter((id) => plan.wires[id]?.bends) : [];
  if (!plan || bent.length === 0) return;
  const edits = bent.map((id) => setWire(plan, id, { bends: undefined }));
  commit(app, {
    ...edits.reduce(merge),
    intent: 'wire.straighten',
    label: bent.length === 1 ? 'Let the wire find its own way' : 'Let the wires find their own way',
  });
}

export function nudge(app: App, scene: Scene, dx: number, dy: number): void {
  const { plan, selection } = app.getState();
  if (plan && selection.parts.length > 0) commit(app, moveEdit(plan, scene, selection.parts, dx, dy));
}

export function copySelection(app: App): Clip | null {
  const { plan, selection } = app.getState();
  return plan && selection.parts.length > 0 ? copyItems(plan, selection.parts) : null;
}

/** Pastes a clip beside where it came from; further pastes step on. */
export function paste(app: App, clip: Clip, step: number): void {
  const { plan, select } = app.getState();
  if (!plan) return;
  const { edit, ids } = pasteClip(plan, clip, 20 * step, 20 * step);
  if (commit(app, edit)) select({ parts: ids, wires: [] });
}

export function duplicateSelection(app: App): void {
  const clip = copySelection(app);
  if (clip) paste(app, clip, 1);
}

export function selectAll(app: App): void {
  const { plan, select } = app.getState();
  if (plan) select({ parts: Object.keys(plan.parts), wires: Object.keys(plan.wires) });
}

/** The chosen push button, when it alone is chosen. */
export function pressable(app: App): Id | null {
  const { plan, selection } = app.getState();
  const only = selection.parts.length === 1 && selection.wires.length === 0 ? selection.parts[0] : undefined;
  return only !== undefined && plan?.parts[only]?.kind === 'push-button' ? only : null;
}
