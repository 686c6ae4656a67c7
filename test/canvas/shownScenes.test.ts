import { describe, expect, it } from 'vitest';
import { ShownScenes } from '../../src/canvas/shownScenes.ts';
import { movePart } from '../../src/plan/edits.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { createApp } from '../../src/state/store.ts';
import { smallBuild } from '../scene/plans.ts';

describe('scenes that were shown', () => {
  it('come back after undo, route for route, though the plan object is another', () => {
    const { plan, ids } = smallBuild();
    const app = createApp();
    app.getState().load(plan);
    const shown = new ShownScenes();
    const first = buildScene(plan);
    shown.keep(plan, first);
    app.getState().apply(movePart(plan, ids.down ?? '', { zone: 'z4', x: 300, y: 200 }));
    const moved = app.getState().plan ?? plan;
    const second = buildScene(moved, first);
    shown.keep(moved, second);
    app.getState().undo();
    const back = app.getState().plan ?? plan;
    expect(back).not.toBe(plan);
    expect(shown.sceneOf(back)).toBe(first);
    const again = buildScene(back, shown.sceneOf(back) ?? second);
    for (const [id, wire] of first.wires) expect(again.wires.get(id)).toBe(wire);
  });

  it('know nothing of a plan that was never shown', () => {
    const { plan } = smallBuild();
    const shown = new ShownScenes();
    expect(shown.sceneOf(plan)).toBeNull();
    shown.keep(plan, buildScene(plan));
    expect(shown.sceneOf({ ...plan, id: 'other' })).toBeNull();
  });
});
