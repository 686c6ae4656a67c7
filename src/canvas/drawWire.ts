import { snap } from '../drawing/box.ts';
import type { LaneMap } from '../drawing/lanes.ts';
import { route } from '../drawing/route.ts';
import { LaneSearch } from '../drawing/search.ts';
import type { End } from '../plan/types.ts';
import { lanesOf, routeEnd } from '../scene/lanesOf.ts';
import { joinEnds, joinToWire } from './commands.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import { nothingLive } from './live.ts';
import { nearestOn } from './sceneIndex.ts';
import { whyNot } from './sensibleEnds.ts';
import { litTargets } from './targets.ts';

/** How near the pointer must come to a terminal or wire to take it, px. */
const TAKE_PX = 16;

/** Draws a wire from a terminal: to another terminal, or onto a wire. A click instead keeps the terminal chosen. */
export class DrawWire implements Gesture {
  private lanes: { readonly map: LaneMap; readonly search: LaneSearch } | null = null;
  private target: { readonly end: End } | { readonly wire: string; readonly x: number; readonly y: number } | null = null;

  constructor(
    private readonly engine: Engine,
    private readonly from: End,
    /** After a drag whose terminal had been chosen by a click before: put that down, too. */
    private readonly onClick: () => void,
  ) {}

  click(): void {
    this.onClick();
  }

  move(at: Press): void {
    const { engine, from } = this;
    const { scene, index } = engine;
    const plan = engine.app.getState().plan;
    const part = scene?.parts.get(from.part);
    const start = routeEnd(part?.pads[from.terminal], part);
    if (!scene || !index || !plan || !start) return;
    if (!this.lanes) {
      const map = lanesOf(scene.zones, scene.parts.values());
      for (const wire of scene.wires.values()) map.mark(wire.points);
      this.lanes = { map, search: new LaneSearch(map) };
      engine.live.targets = litTargets(plan, scene, from);
    }
    const reach = engine.reach(TAKE_PX);
    const pad = index.padNear(at.x, at.y, reach);
    const ok = pad && whyNot(plan, from, pad) === null ? pad : null;
    // A terminal that cannot be joined still counts as meant: the drop says why not, rather than splicing nearby.
    const meant = pad && (pad.part !== from.part || pad.terminal !== from.terminal) ? pad : null;
    const near = meant ? null : index.wireNear(at.x, at.y, reach / 2);
    const over = near && plan.wires[near.id];
    const spliceable = over && over.owner === 'build' && over.from.part !== from.part && over.to.part !== from.part ? scene.wires.get(over.id) : undefined;
    const on = spliceable && nearestOn(spliceable.points, at.x, at.y);
    const end = ok && routeEnd(scene.parts.get(ok.part)?.pads[ok.terminal], scene.parts.get(ok.part));
    this.target = meant ? { end: meant } : spliceable && on ? { wire: spliceable.id, x: on.x, y: on.y } : null;
    const to = end ?? { x: snap(on?.x ?? at.x), y: snap(on?.y ?? at.y), side: 'any' as const };
    engine.live.rubber = route(this.lanes.map, this.lanes.search, start, to, { effort: 'quick' });
    engine.live.target = ok || spliceable ? { x: to.x, y: to.y } : null;
    engine.live.dropWire = spliceable?.id ?? null;
    engine.redrawLive();
  }

  drop(): void {
    const { engine, target, from } = this;
    this.cancel();
    if (engine.app.getState().wiringFrom) engine.app.getState().setWiringFrom(null);
    if (!target || !engine.scene) return;
    if ('end' in target) joinEnds(engine.app, from, target.end);
    else joinToWire(engine.app, engine.scene, from, target.wire, target.x, target.y);
  }

  cancel(): void {
    this.engine.live = nothingLive();
    this.engine.redrawLive();
  }
}
