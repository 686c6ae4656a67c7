import { describe, expect, it } from 'vitest';
import type { Engine } from '../../src/canvas/engine.ts';
import type { Hand } from '../../src/canvas/hands/command.ts';
import { commands } from '../../src/canvas/hands/registry.ts';
import type { Id } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { ZONE } from '../../src/scene/layout.ts';
import { createApp } from '../../src/state/store.ts';
import { planOf } from '../scene/plans.ts';

/** Three resistors that stand crooked in one zone, and a stud on its chassis bar. */
function open(chosen: readonly string[]) {
  const { plan, ids } = planOf(
    [
      { key: 'a', kind: 'resistor', zone: 'z2', x: 20, y: 40 },
      { key: 'b', kind: 'resistor', zone: 'z2', x: 110, y: 150 },
      { key: 'c', kind: 'resistor', zone: 'z2', x: 300, y: 280 },
      { key: 'stud', kind: 'chassis-ground', zone: 'z2', x: 200, y: 0 },
    ],
    [],
  );
  const app = createApp();
  app.getState().load(plan);
  const scene = buildScene(plan);
  app.getState().select({ parts: chosen.map((key) => ids[key] as Id), wires: [] });
  // The drawing follows the plan, as on the page.
  const engine = {
    get scene() {
      return buildScene(app.getState().plan ?? plan);
    },
  } as unknown as Engine;
  const hand: Hand = { engine, app, open: () => undefined };
  const run = (id: string): void => {
    const command = commands.find((c) => c.id === id);
    if (!command?.can(hand)) throw new Error(`${id} has nothing to do`);
    command.run(hand);
  };
  const at = (key: string) => {
    const part = app.getState().plan?.parts[ids[key] as Id];
    return [part?.x, part?.y];
  };
  return { app, scene, ids, run, at, can: (id: string) => commands.find((c) => c.id === id)?.can(hand) };
}
const ALL = ['a', 'b', 'c'];

describe('the commands that line up', () => {
  it('have bodies of one size here, and the stud hangs on its bar', () => {
    const { scene, ids } = open(ALL);
    const sizes = ALL.map((key) => scene.parts.get(ids[key] as Id)?.box);
    expect(new Set(sizes.map((b) => `${b?.w}x${b?.h}`)).size).toBe(1);
    expect(scene.parts.get(ids.stud as Id)?.box.y).not.toBe(ZONE.head);
  });

  // Like bodies: the outer edges and so the middles are those of the outermost parts.
  it.each([
    ['align.left', [20, 40], [20, 150], [20, 280]],
    ['align.right', [300, 40], [300, 150], [300, 280]],
    ['align.centre', [160, 40], [160, 150], [160, 280]],
    ['align.top', [20, 40], [110, 40], [300, 40]],
    ['align.bottom', [20, 280], [110, 280], [300, 280]],
    ['align.middle', [20, 160], [110, 160], [300, 160]],
    ['space.across', [20, 40], [160, 150], [300, 280]],
    ['space.down', [20, 40], [110, 160], [300, 280]],
  ] as const)('%s moves what is chosen, as one step of undo', (id, a, b, c) => {
    const { run, at, app } = open(ALL);
    run(id);
    expect(ALL.map(at)).toEqual([a, b, c]);
    expect(at('stud')).toEqual([200, 0]);
    expect(app.getState().past).toHaveLength(1);
    app.getState().undo();
    expect(ALL.map(at)).toEqual([
      [20, 40],
      [110, 150],
      [300, 280],
    ]);
  });

  it('a stud on its chassis bar is lined up sideways, and left out up and down', () => {
    for (const id of ['align.top', 'align.bottom', 'align.middle', 'space.down']) {
      const { run, at } = open([...ALL, 'stud']);
      run(id);
      expect(at('stud'), id).toEqual([200, 0]);
      expect(at('b')[1], id).not.toBe(150);
    }
    const { run, at } = open(['a', 'stud']);
    run('align.right');
    expect(at('stud')[1]).toBe(0);
    expect(at('a')[0]).not.toBe(20);
  });

  it('wait for two parts, or three', () => {
    const { can } = open(['a']);
    expect(can('align.left')).toBe(false);
    const two = open(['a', 'b']);
    expect([two.can('align.left'), two.can('space.across')]).toEqual([true, false]);
  });

  it('say why nothing was done', () => {
    const { run, app } = open(ALL);
    run('align.top');
    run('align.top');
    expect(app.getState().notice?.text).toBe('They already lie like that.');
  });
});
