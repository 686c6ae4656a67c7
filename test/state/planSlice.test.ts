import { beforeEach, describe, expect, it } from 'vitest';
import { addPart, addWire, movePart, removeItems, setHead, setSetting, setWire, turnParts } from '../../src/plan/edits.ts';
import { JOIN_MS, KEPT_EDITS } from '../../src/state/planSlice.ts';
import { type App, createApp } from '../../src/state/store.ts';
import { smallPlan } from '../plan/laws.ts';
import { edit, planOf } from './fakes.ts';

const { plan: first, ids } = smallPlan();
let now = 0;
let app: App;
beforeEach(() => {
  now = 1000;
  app = createApp(() => now);
  app.getState().load(first);
});

describe('undo and redo', () => {
  it('go back and forth over everything', () => {
    edit(app, (p) => movePart(p, ids.fuse, { x: 200, y: 0 }));
    now += 1000;
    edit(app, (p) => removeItems(p, [ids.fuse]));
    const end = planOf(app);
    app.getState().undo();
    app.getState().undo();
    expect(planOf(app)).toStrictEqual(first);
    app.getState().undo();
    expect(planOf(app)).toStrictEqual(first);
    app.getState().redo();
    app.getState().redo();
    expect(planOf(app)).toStrictEqual(end);
    expect(app.getState().future).toStrictEqual([]);
  });

  it('a new edit forgets what was undone', () => {
    edit(app, (p) => movePart(p, ids.fuse, { x: 200, y: 0 }));
    app.getState().undo();
    edit(app, (p) => turnParts(p, [ids.fuse]));
    expect(app.getState().future).toStrictEqual([]);
  });

  it('keeps a bounded number of entries', () => {
    for (let i = 0; i < KEPT_EDITS + 5; i += 1) {
      now += 1000;
      edit(app, (p) => setHead(p, { title: `t${i}` }));
    }
    expect(app.getState().past).toHaveLength(KEPT_EDITS);
  });

  it('an undo that no longer fits says so and changes nothing', () => {
    edit(app, (p) => movePart(p, ids.fuse, { x: 200, y: 0 }));
    app.setState({ plan: first });
    app.getState().undo();
    expect(app.getState().notice?.text).toContain('Undo of “Move Main fuse” is not possible');
    expect(planOf(app)).toBe(first);
  });
});

describe('edits that follow closely', () => {
  const type = (value: number) => edit(app, (p) => setSetting(p, ids.fuse, 'ratingA', value));

  it('of one setting are one entry', () => {
    type(1);
    now += JOIN_MS;
    type(10);
    expect(app.getState().past).toHaveLength(1);
    app.getState().undo();
    expect(planOf(app)).toStrictEqual(first);
    app.getState().redo();
    expect(planOf(app).parts[ids.fuse]?.settings.ratingA).toBe(10);
  });

  it('are two entries after a pause, on another field, or after undo', () => {
    type(1);
    now += JOIN_MS + 1;
    type(10);
    expect(app.getState().past).toHaveLength(2);
    edit(app, (p) => setSetting(p, ids.fuse, 'voltClass', '58'));
    expect(app.getState().past).toHaveLength(3);
    app.getState().undo();
    type(15);
    expect(app.getState().past).toHaveLength(3);
  });

  it('leave no entry when typed back', () => {
    type(10);
    type(5);
    expect(planOf(app)).toStrictEqual(first);
    expect(app.getState().past).toStrictEqual([]);
  });
});

describe('what is refused', () => {
  it('returns the reason and changes nothing', () => {
    const late = movePart(planOf(app), ids.fuse, { x: 50, y: 0 });
    edit(app, (p) => setSetting(p, ids.fuse, 'ratingA', 10));
    const before = app.getState();
    expect(app.getState().apply(late)).toStrictEqual({ ok: false, reason: `part ${ids.fuse} has changed since this edit was made` });
    expect(app.getState()).toBe(before);
  });

  it('refuses what the part kinds do not allow, in the words of the part', () => {
    const tryEdit = (made: Parameters<ReturnType<App['getState']>['apply']>[0]) => app.getState().apply(made);
    const reason = (result: ReturnType<typeof tryEdit>) => (result.ok ? '' : result.reason);
    const plan = planOf(app);
    expect(reason(tryEdit(setSetting(plan, ids.fuse, 'ratingA', 900)))).toMatch(/: 900 A is above the largest allowed, 40 A$/);
    expect(reason(tryEdit(setSetting(plan, ids.fuse, 'ratingA', Number.NaN)))).toMatch(/needs a number$/);
    expect(reason(tryEdit(setSetting(plan, ids.fuse, 'voltClass', '7')))).toContain('is not one of');
    expect(reason(tryEdit(setSetting(plan, ids.fuse, 'wings', 2)))).toContain('has no setting “wings”');
    expect(reason(tryEdit(addPart(plan, { kind: 'nothing-such', zone: 'z1', x: 0, y: 0 }).edit))).toBe('there is no part kind “nothing-such”');
    expect(reason(tryEdit(addWire(plan, { part: ids.fuse, terminal: '9' }, { part: ids.battery, terminal: '+' }).edit))).toBe('Main fuse has no terminal 9');
    expect(planOf(app)).toBe(first);
  });

  it('will not take a terminal away from under its wire', () => {
    const strip = addPart(planOf(app), { kind: 'terminal-strip', zone: 'z2', x: 300, y: 0, settings: { ways: 4 } });
    edit(app, () => strip.edit);
    edit(app, (p) => addWire(p, { part: strip.id, terminal: 'a4' }, { part: ids.fuse, terminal: '2' }).edit);
    const result = app.getState().apply(setSetting(planOf(app), strip.id, 'ways', 2));
    expect(result).toStrictEqual({ ok: false, reason: 'a wire still ends on Terminal strip 4: remove it first' });
  });
});

describe('around the plan', () => {
  it('selection and pointer lose what is removed, and a wire in hand its end', () => {
    app.getState().select({ parts: [ids.fuse, ids.battery], wires: [ids.feedWire] });
    app.getState().setWiringFrom({ part: ids.fuse, terminal: '2' });
    edit(app, (p) => removeItems(p, [ids.fuse]));
    expect(app.getState().selection).toStrictEqual({ parts: [ids.battery], wires: [] });
    expect(app.getState().wiringFrom).toBeNull();
  });

  it('selection keeps its identity when nothing in it went', () => {
    const selection = { parts: [ids.fuse], wires: [] };
    app.getState().select(selection);
    edit(app, (p) => setWire(p, ids.feedWire, { areaMm2: 2.5 }));
    expect(app.getState().selection).toBe(selection);
  });

  it('an edit ends the drag in hand, also one that changes nothing', () => {
    app.getState().setProvisional(first);
    edit(app, (p) => movePart(p, ids.fuse, { x: 20, y: 40 }));
    expect(app.getState().provisional).toBeNull();
    expect(app.getState().past).toStrictEqual([]);
  });

  it('loading starts undo afresh and drops old results', () => {
    edit(app, (p) => movePart(p, ids.fuse, { x: 200, y: 0 }));
    app.getState().load(first);
    expect(app.getState()).toMatchObject({ past: [], future: [], results: null, resultsFor: null, selection: { parts: [], wires: [] } });
    app.getState().close();
    expect(app.getState().plan).toBeNull();
    expect(app.getState().apply(setHead(first, { title: 'x' }))).toStrictEqual({ ok: false, reason: 'no plan is open' });
  });

  it('another plan is looked at with key and supply as at first; undo, the same plan and its other wirings leave them', () => {
    const look = () => [app.getState().keyPosition, app.getState().band];
    app.getState().setKey('Parked');
    app.getState().setBand('low');
    edit(app, (p) => movePart(p, ids.fuse, { x: 200, y: 0 }));
    app.getState().undo();
    app.getState().load(first);
    app.getState().load({ ...first, id: 'wiring-b', alternative: { of: first.id, letter: 'B' } });
    app.getState().load(first);
    expect(look()).toEqual(['Parked', 'low']);
    app.getState().load({ ...first, id: 'other' });
    expect(look()).toEqual(['Running', 'typical']);
    app.getState().setKey('Start');
    app.getState().close();
    app.getState().load({ ...first, id: 'other' });
    expect(look()).toEqual(['Running', 'typical']);
  });

  it('holds one thing in the hand at a time', () => {
    app.getState().setPlacing({ type: 'part', id: 'resistor' });
    app.getState().setWiringFrom({ part: ids.fuse, terminal: '1' });
    expect(app.getState().placing).toBeNull();
    app.getState().setPlacing({ type: 'set', id: 'supply' });
    expect(app.getState().wiringFrom).toBeNull();
  });
});
