import { snap, union } from '../drawing/box.ts';
import { placePrimitive } from '../drawing/turn.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import { dropSet, partKind, partSets, setPartSettings } from '../parts/index.ts';
import { addPart } from '../plan/edits.ts';
import type { Edit, Id, Part, Plan, Values } from '../plan/types.ts';
import { localPart } from '../scene/symbols.ts';
import type { AppState } from '../state/types.ts';
import { commit, placeAt } from './commands.ts';
import { cutNew, cutPlace, inlineShape } from './cutIn.ts';
import type { Engine } from './engine.ts';
import { nothingLive } from './live.ts';

type Placing = NonNullable<AppState['placing']>;

/** How near to a wire something from the shelf must be dropped to be cut in, u. */
const CUT_REACH = 9;

interface Held {
  readonly primitives: readonly Primitive[];
  readonly box: Box;
}

/** What is in the hand from the shelf: follows the pointer, is put down where it is let go or clicked. */
export class Placer {
  private held: { readonly for: Placing; readonly look: Held } | null = null;

  constructor(private readonly engine: Engine) {}

  /** The pointer is over the surface with something in the hand. */
  hover(x: number, y: number): void {
    const { placing, plan } = this.engine.app.getState();
    if (!placing || !plan) return;
    if (this.held?.for !== placing) this.held = { for: placing, look: lookOf(placing, plan) };
    const { box, primitives } = this.held.look;
    const left = snap(x - box.w / 2);
    const top = snap(y - box.h / 2);
    this.engine.live.ghost = { primitives, x: left - box.x, y: top - box.y };
    const wire = this.wireUnder(placing, x, y);
    this.engine.live.dropWire = wire;
    this.engine.redrawLive();
  }

  /** The pointer has left the surface, or the hand is empty. */
  away(): void {
    if (!this.engine.live.ghost) return;
    this.engine.live = nothingLive();
    this.held = null;
    this.engine.redrawLive();
  }

  /** Puts it down at a world point. */
  put(x: number, y: number): void {
    const { app, scene } = this.engine;
    const { placing, plan, select, setPlacing } = app.getState();
    if (!placing || !plan || !scene) return;
    const look = this.held?.for === placing ? this.held.look : lookOf(placing, plan);
    const wire = this.wireUnder(placing, x, y);
    const done = wire ? this.cut(placing, plan, wire, x, y) : add(placing, plan, scene, look.box, x, y);
    this.away();
    setPlacing(null);
    if (done && commit(app, done.edit)) select({ parts: done.ids, wires: [] });
  }

  private wireUnder(placing: Placing, x: number, y: number): Id | null {
    const { index, app } = this.engine;
    if (placing.type !== 'part' || !index || !inlineShape(partKind(placing.id), settingsFor(placing))) return null;
    const near = index.wireNear(x, y, CUT_REACH);
    const wire = near && app.getState().plan?.wires[near.id];
    return wire && wire.owner === 'build' && !wire.fitted ? wire.id : null;
  }

  private cut(placing: Placing, plan: Plan, wire: Id, x: number, y: number): { edit: Edit; ids: Id[] } | null {
    const kind = partKind(placing.id);
    const settings = settingsFor(placing);
    const shape = inlineShape(kind, settings);
    const place = shape && this.engine.scene ? cutPlace(this.engine.scene, wire, shape, x, y) : null;
    if (!place) return null;
    const { edit, id } = cutNew(plan, wire, { kind: kind.kind, settings, owner: kind.owner ?? 'build' }, place);
    return { edit, ids: [id] };
  }
}

function settingsFor(placing: Placing): Values {
  return partKind(placing.id).variants?.find((v) => v.id === placing.variant)?.settings ?? {};
}

function add(placing: Placing, plan: Plan, scene: Parameters<typeof placeAt>[0], box: Box, x: number, y: number): { edit: Edit; ids: Id[] } | null {
  const at = placeAt(scene, x - box.w / 2, y - box.h / 2, box.w);
  if (!at) return null;
  if (placing.type === 'set') {
    const { edit, ids } = dropSet(plan, placing.id, at.zone, at.x - box.x, at.y - box.y);
    return { edit, ids: Object.values(ids) };
  }
  const kind = partKind(placing.id);
  const { edit, id } = addPart(plan, { kind: kind.kind, ...at, settings: settingsFor(placing), owner: kind.owner ?? 'build' }, `Add ${kind.title}`);
  return { edit, ids: [id] };
}

/** The picture in the hand, before it has a place. */
function lookOf(placing: Placing, plan: Plan): Held {
  const rows: Part[] =
    placing.type === 'part'
      ? [row(placing.id, 0, 0, 0, settingsFor(placing))]
      : (partSets.get(placing.id)?.parts ?? []).map((p) => row(p.kind, p.x, p.y, p.turn ?? 0, setPartSettings(p, plan.vehicle.systemV), p.name));
  const looks = rows.map((part) => ({ part, local: localPart(part, partKind(part.kind), '') }));
  return {
    primitives: looks.flatMap(({ part, local }) => local.primitives.map((p) => placePrimitive(p, local.w, local.h, 0, part.x, part.y))),
    box: union(looks.map(({ part, local }) => ({ x: part.x, y: part.y, w: local.w, h: local.h }))),
  };
}

function row(kind: string, x: number, y: number, turn: Part['turn'], settings: Values, name?: string): Part {
  return { id: '', kind, owner: 'build', zone: '', x, y, turn, settings, ...(name === undefined ? {} : { name }) };
}
