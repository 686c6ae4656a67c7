import { describe, expect, it } from 'vitest';
import { joinEnds, joinToWire, moveEdit, nudge, placeAt, removeSelection } from '../../src/canvas/commands.ts';
import { cutExisting, cutNew, cutPlace, inlineShape } from '../../src/canvas/cutIn.ts';
import { readClip } from '../../src/canvas/readClip.ts';
import { partKind } from '../../src/parts/index.ts';
import { copyItems } from '../../src/plan/copy.ts';
import { addPart, setWire } from '../../src/plan/edits.ts';
import { bendsOnDrawing } from '../../src/scene/bends.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { ZONE } from '../../src/scene/layout.ts';
import { createApp } from '../../src/state/store.ts';
import { done, smallBuild } from '../scene/plans.ts';

function open() {
  const built = smallBuild();
  const app = createApp();
  app.getState().load(built.plan);
  return { ...built, app, scene: buildScene(built.plan) };
}

describe('places', () => {
  const { scene } = open();
  const zone = scene.zones[2];
  const left = zone?.box.x ?? 0;

  it('belong to the zone in which the middle of the body lies', () => {
    expect(placeAt(scene, left + 100, ZONE.head + 40, 60)).toEqual({ zone: 'z3', x: 100, y: 40 });
    expect(placeAt(scene, left - 50, 200, 60)?.zone).toBe('z2');
    expect(placeAt(scene, left - 20, 200, 60)).toMatchObject({ zone: 'z3', x: 10 });
  });

  it('are never above the zone or outside the outer ones', () => {
    expect(placeAt(scene, -400, -400, 60)).toEqual({ zone: 'z1', x: 10, y: 0 });
    expect(placeAt(scene, 99999, 100, 60)?.zone).toBe('z4');
  });
});

describe('moving', () => {
  it('takes a part into the zone it is dropped in, as one entry of undo that goes back', () => {
    const { app, plan, scene, ids } = open();
    const id = ids.button ?? '';
    const from = scene.parts.get(id)?.box.x ?? 0;
    const dx = (scene.zones[2]?.box.x ?? 0) + 40 - from;
    app.getState().apply(moveEdit(plan, scene, [id], dx, 0));
    expect(app.getState().plan?.parts[id]).toMatchObject({ zone: 'z3', x: 40, y: 300 });
    expect(app.getState().past).toHaveLength(1);
    app.getState().undo();
    expect(app.getState().plan).toEqual(plan);
  });

  it('moves a chassis stud only sideways', () => {
    const { plan, scene, ids } = open();
    const edit = moveEdit(plan, scene, [ids.ground ?? ''], 40, 120);
    expect(done(plan, edit).parts[ids.ground ?? '']).toMatchObject({ x: 140, y: 0 });
  });

  it('takes hand-placed bends along when both ends move', () => {
    const { plan, ids, wires } = open();
    const bent = done(plan, setWire(plan, wires[4] ?? '', { bends: [{ x: 500, y: 500 }] }));
    const scene = buildScene(bent);
    const after = done(bent, moveEdit(bent, scene, [ids.down ?? '', ids.pc ?? ''], 20, 30));
    expect(after.wires[wires[4] ?? '']?.bends).toMatchObject([{ y: 530 }]);
    expect(bendsOnDrawing(after.wires[wires[4] ?? '']?.bends ?? [], scene.zones)).toEqual([{ x: 520, y: 530 }]);
    const one = done(bent, moveEdit(bent, scene, [ids.down ?? ''], 20, 30));
    expect(one.wires[wires[4] ?? '']?.bends).toEqual([{ x: 500, y: 500 }]);
  });

  it('nudges what is chosen', () => {
    const { app, scene, ids } = open();
    app.getState().select({ parts: [ids.down ?? ''], wires: [] });
    nudge(app, scene, 10, 0);
    expect(app.getState().plan?.parts[ids.down ?? '']).toMatchObject({ x: 70, y: 60 });
  });
});

describe('joining', () => {
  it('adds a wire and chooses it', () => {
    const { app, ids } = open();
    expect(joinEnds(app, { part: ids.pc ?? '', terminal: '11' }, { part: ids.button ?? '', terminal: '1' })).toBe(true);
    const [id] = app.getState().selection.wires;
    expect(app.getState().plan?.wires[id ?? '']).toMatchObject({ owner: 'build', from: { terminal: '11' } });
  });

  it("makes a lead between the vehicle's own parts the vehicle's", () => {
    const { app, plan, ids } = open();
    const { edit, id } = addPart(plan, { kind: 'feed-15', zone: 'z2', x: 30, y: 200, owner: 'vehicle' });
    app.getState().apply(edit);
    joinEnds(app, { part: ids.battery ?? '', terminal: '+' }, { part: id, terminal: 'in' });
    const wire = Object.values(app.getState().plan?.wires ?? {}).find((w) => w.to.part === id);
    expect(wire?.owner).toBe('vehicle');
    joinEnds(app, { part: id, terminal: 'out' }, { part: ids.fuse ?? '', terminal: '1' });
    expect(Object.values(app.getState().plan?.wires ?? {}).find((w) => w.from.part === id)?.owner).toBe('build');
  });

  it('tells the person why not, and changes nothing', () => {
    const { app, plan, ids } = open();
    expect(joinEnds(app, { part: ids.pc ?? '', terminal: '2' }, { part: ids.fuse ?? '', terminal: '2' })).toBe(false);
    expect(app.getState().notice?.kind).toBe('problem');
    expect(app.getState().plan).toBe(plan);
  });

  it('splices onto the middle of a wire', () => {
    const { app, scene, ids, wires } = open();
    const at = scene.wires.get(wires[2] ?? '')?.tagAt ?? { x: 0, y: 0 };
    expect(joinToWire(app, scene, { part: ids.pc ?? '', terminal: '11' }, wires[2] ?? '', at.x, at.y)).toBe(true);
    const plan = app.getState().plan;
    const splice = Object.values(plan?.parts ?? {}).find((p) => p.kind === 'splice');
    expect(Object.values(plan?.wires ?? {}).filter((w) => w.from.part === splice?.id || w.to.part === splice?.id)).toHaveLength(3);
  });

  it("leaves the vehicle's leads and fitted wires alone", () => {
    const { app, plan, scene, ids, wires } = open();
    expect(joinToWire(app, scene, { part: ids.pc ?? '', terminal: '11' }, wires[0] ?? '', 0, 0)).toBe(false);
    app.getState().apply(setWire(plan, wires[2] ?? '', { fitted: true }));
    expect(joinToWire(app, scene, { part: ids.pc ?? '', terminal: '11' }, wires[2] ?? '', 0, 0)).toBe(false);
    expect(Object.keys(app.getState().plan?.parts ?? {})).toHaveLength(Object.keys(plan.parts).length);
  });

  it('removes what is chosen with the wires on it', () => {
    const { app, ids } = open();
    app.getState().select({ parts: [ids.button ?? ''], wires: [] });
    removeSelection(app);
    expect(Object.values(app.getState().plan?.wires ?? {}).some((w) => w.from.part === ids.button)).toBe(false);
    expect(app.getState().selection.parts).toEqual([]);
  });
});

describe('cutting a part into a wire', () => {
  const { plan, scene, ids, wires } = open();
  const fuse = inlineShape(partKind('blade-fuse'), {});
  const wireId = wires[2] ?? '';
  const at = scene.wires.get(wireId)?.tagAt ?? { x: 0, y: 0 };

  it('works for parts with two ends on opposite sides', () => {
    expect(fuse).toMatchObject({ left: '1', right: '2', w: 60 });
    expect(inlineShape(partKind('step-down'), {})).toBeNull();
    expect(inlineShape(partKind('chassis-ground'), {})).toBeNull();
  });

  it('puts its terminals on the line of the wire, in along and out along', () => {
    if (!fuse) throw new Error('no shape');
    const place = cutPlace(scene, wireId, fuse, at.x, at.y);
    if (!place) throw new Error('no place');
    const after = done(plan, cutNew(plan, wireId, { kind: 'blade-fuse', owner: 'build' }, place).edit);
    expect(after.wires[wireId]).toBeUndefined();
    const fresh = Object.values(after.parts).find((p) => !plan.parts[p.id]);
    const drawn = buildScene(after);
    const old = scene.wires.get(wireId)?.points ?? [];
    const pads = Object.values(drawn.parts.get(fresh?.id ?? '')?.pads ?? {});
    for (const pad of pads) expect(nearLine(old, pad.x, pad.y)).toBeLessThanOrEqual(20);
    const first = Object.values(after.wires).find((w) => w.to.part === fresh?.id);
    expect(first?.from).toEqual(plan.wires[wireId]?.from);
  });

  it('takes a loose part of the plan, name and settings with it, and refuses a wired one', () => {
    if (!fuse) throw new Error('no shape');
    const loose = addPart(plan, { kind: 'blade-fuse', zone: 'z4', x: 10, y: 10, name: 'Spare', settings: { ratingA: 3 } });
    const withLoose = done(plan, loose.edit);
    const place = cutPlace(buildScene(withLoose), wireId, fuse, at.x, at.y);
    if (!place) throw new Error('no place');
    const cut = cutExisting(withLoose, wireId, loose.id, place);
    const after = done(withLoose, cut?.edit ?? { intent: '', label: '', changes: [] });
    expect(after.parts[loose.id]).toBeUndefined();
    expect(after.parts[cut?.id ?? '']).toMatchObject({ name: 'Spare', settings: { ratingA: 3 } });
    expect(cutExisting(plan, wireId, ids.fuse ?? '', place)).toBeNull();
  });
});

function nearLine(p: readonly number[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 3 < p.length; i += 2) {
    const dx = Math.max(Math.min(p[i] as number, p[i + 2] as number) - x, 0, x - Math.max(p[i] as number, p[i + 2] as number));
    const dy = Math.max(Math.min(p[i + 1] as number, p[i + 3] as number) - y, 0, y - Math.max(p[i + 1] as number, p[i + 3] as number));
    least = Math.min(least, Math.hypot(dx, dy));
  }
  return least;
}

describe('the clipboard', () => {
  const { plan, ids } = open();
  it('reads back what was copied', () => {
    const clip = copyItems(plan, [ids.down ?? '', ids.pc ?? '']);
    expect(readClip(JSON.stringify(clip))).toEqual(clip);
  });
  it('takes nothing else for a clip', () => {
    for (const text of [
      '',
      'hello',
      '{',
      '{}',
      '[]',
      '{"format":"dashloom-clip"}',
      '{"format":"dashloom-clip","parts":[1],"wires":[],"zones":{}}',
      '{"format":"dashloom-clip","parts":[{"id":"p1"}],"wires":[],"zones":{}}',
    ])
      expect(readClip(text)).toBeNull();
  });
  it('brings nothing into the plan that a file of it could not hold', () => {
    const clip = copyItems(plan, [ids.down ?? '', ids.pc ?? '']);
    const written = (part: object, wire: object): string => {
      const [first, ...others] = clip.parts;
      return JSON.stringify({ ...clip, parts: [{ ...first, ...part }, ...others], wires: clip.wires.map((w) => ({ ...w, ...wire })) });
    };
    expect(clip.wires.length).toBeGreaterThan(0);
    for (const wrong of [{ lengthM: '2 m' }, { colour: 'XX' }, { sleeved: 1 }, { note: 7 }, { areaMm2: null }]) expect(readClip(written({}, wrong))).toBeNull();
    for (const wrong of [{ name: {} }, { note: 5 }, { settings: [] }]) expect(readClip(written(wrong, {}))).toBeNull();
    expect(readClip(written({ stray: 1 }, { stray: 1 }))).toEqual(clip);
  });
});
