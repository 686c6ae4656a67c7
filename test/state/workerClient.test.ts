import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { apply } from '../../src/plan/apply.ts';
import { movePart, removeItems, setHead, setSetting, setWire, setZone } from '../../src/plan/edits.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { sameElectric } from '../../src/state/electric.ts';
import { isMomentary } from '../../src/state/shown.ts';
import { type App, createApp } from '../../src/state/store.ts';
import { attachWorker, DRAG_MS, JOIN_MS, PATIENCE_MS } from '../../src/state/workerClient.ts';
import { smallPlan } from '../plan/laws.ts';
import { edit, FakeWorker, planOf } from './fakes.ts';

const { plan: first, ids } = smallPlan();
let workers: FakeWorker[];
let app: App;
let detach: () => void;

const worker = (): FakeWorker => workers.at(-1) as FakeWorker;
const rate = (value: number) => edit(app, (p) => setSetting(p, ids.fuse, 'ratingA', value));
const done = (plan: Plan, made: Edit): Plan => {
  const next = apply(plan, made);
  if (!next.ok) throw new Error(next.reason);
  return next.plan;
};

beforeEach(() => {
  vi.useFakeTimers();
  workers = [];
  app = createApp();
  app.getState().load(first);
  detach = attachWorker(app, () => {
    workers.push(new FakeWorker());
    return worker();
  });
});
afterEach(() => {
  detach();
  vi.useRealTimers();
});

describe('results follow the plan', () => {
  it('asks at once and keeps the results beside their plan', () => {
    expect(worker().last.plan).toBe(first);
    expect(app.getState().busy).toBe(true);
    worker().answer();
    expect(app.getState()).toMatchObject({ busy: false, workerError: null });
    expect(app.getState().resultsFor).toBe(first);
  });

  it('while one is computed only the newest waits', () => {
    for (const a of [1, 2, 3]) rate(a);
    expect(worker().asked).toHaveLength(1);
    worker().answer();
    expect(app.getState().resultsFor).toBe(first);
    expect(app.getState().busy).toBe(true);
    expect(worker().asked).toHaveLength(2);
    expect(worker().last.plan).toBe(planOf(app));
    worker().answer();
    expect(app.getState().resultsFor).toBe(planOf(app));
    expect(app.getState().busy).toBe(false);
  });

  it('drops an answer for another document, and a late one', () => {
    const old = worker().last;
    app.getState().load({ ...first, id: 'other' });
    worker().answer(old);
    expect(app.getState().results).toBeNull();
    worker().answer(old);
    expect(app.getState().results).toBeNull();
    worker().answer();
    expect(app.getState().resultsFor).toBe(planOf(app));
  });

  it('an edit made by whoever hears of the results is not lost', () => {
    let once = true;
    app.subscribe((state, before) => {
      if (once && state.resultsFor !== before.resultsFor) {
        once = false;
        rate(30);
      }
    });
    rate(10);
    worker().answer();
    worker().answer();
    worker().answer();
    expect(app.getState().resultsFor).toBe(planOf(app));
    expect(app.getState().busy).toBe(false);
  });
});

describe('a second look', () => {
  const looked = () => app.getState().results?.report?.looked;

  it('that comes soon is shown together with the first', () => {
    let shown = 0;
    app.subscribe((state, before) => {
      if (state.results !== before.results) shown++;
    });
    worker().answerFirst();
    vi.advanceTimersByTime(JOIN_MS - 1);
    expect(app.getState()).toMatchObject({ results: null, busy: true });
    worker().answerSecond();
    expect(app.getState()).toMatchObject({ looking: false, busy: false, resultsFor: first });
    expect(looked()).toBe(2);
    vi.advanceTimersByTime(PATIENCE_MS);
    expect(shown).toBe(1);
  });

  it('that is late lets the first results stand meanwhile', () => {
    worker().answerFirst();
    vi.advanceTimersByTime(JOIN_MS);
    expect(app.getState()).toMatchObject({ looking: true, busy: true, resultsFor: first });
    expect(looked()).toBeUndefined();
    worker().answerSecond();
    expect(app.getState()).toMatchObject({ looking: false, busy: false });
    expect(looked()).toBe(2);
  });

  it('is not waited for once a newer plan is there', () => {
    const old = worker().last;
    worker().answerFirst();
    rate(7);
    expect(worker().asked).toHaveLength(2);
    expect(app.getState()).toMatchObject({ resultsFor: first, looking: true, busy: true });
    worker().answerSecond(old);
    expect(looked()).toBeUndefined();
    worker().answerFirst();
    worker().answerSecond();
    expect(app.getState()).toMatchObject({ resultsFor: planOf(app), looking: false, busy: false });
  });

  it('is left as soon as the first results are in when a newer plan waits already', () => {
    rate(7);
    worker().answerFirst();
    expect(worker().last.plan).toBe(planOf(app));
    expect(app.getState()).toMatchObject({ resultsFor: first, looking: true });
  });

  it('of a plan that was closed is dropped', () => {
    worker().answerFirst();
    app.getState().close();
    vi.advanceTimersByTime(JOIN_MS);
    worker().answerSecond();
    expect(app.getState()).toMatchObject({ results: null, looking: false, busy: false });
  });

  it('that fails says so, and the first results stay what they are', () => {
    worker().answerFirst();
    vi.advanceTimersByTime(JOIN_MS);
    worker().onmessage?.({ data: { id: worker().last.id, error: 'island' } });
    expect(app.getState()).toMatchObject({ workerError: 'island', busy: false, looking: true, resultsFor: first });
  });
});

describe('trouble', () => {
  it('an error is told and the next edit asks again', () => {
    worker().onmessage?.({ data: { id: worker().last.id, error: 'island' } });
    expect(app.getState()).toMatchObject({ workerError: 'island', busy: false });
    rate(10);
    worker().answer();
    expect(app.getState().workerError).toBeNull();
    expect(app.getState().resultsFor).toBe(planOf(app));
  });

  it('a crashed worker is replaced', () => {
    worker().onerror?.({ message: 'boom' });
    expect(app.getState().workerError).toContain('boom');
    rate(10);
    expect(workers).toHaveLength(2);
    expect(workers[0]?.ended).toBe(true);
    expect(worker().last.plan).toBe(planOf(app));
  });

  it('a worker that never answers is replaced, and what waited is asked', () => {
    rate(10);
    vi.advanceTimersByTime(PATIENCE_MS);
    expect(app.getState().workerError).toContain('too long');
    expect(workers).toHaveLength(2);
    expect(worker().last.plan).toBe(planOf(app));
    worker().answer();
    expect(app.getState().workerError).toBeNull();
  });

  it('a browser without workers is told', () => {
    const bare = createApp();
    bare.getState().load(first);
    attachWorker(bare, () => {
      throw new Error('no Worker');
    })();
    expect(bare.getState()).toMatchObject({ busy: false, workerError: 'The calculation could not start: no Worker' });
  });
});

describe('while dragging', () => {
  const drag = (x: number, zone = 'z2') => app.getState().setProvisional(done(planOf(app), movePart(planOf(app), ids.fuse, { x, y: 0, zone })));

  beforeEach(() => {
    worker().answer();
    vi.advanceTimersByTime(DRAG_MS);
  });

  it('a move inside its zone asks nothing', () => {
    for (let x = 100; x < 200; x += 10) drag(x);
    vi.advanceTimersByTime(1000);
    expect(worker().asked).toHaveLength(1);
  });

  it('a move into another zone asks, at most once in the pause, the newest', () => {
    drag(100, 'z3');
    expect(worker().asked).toHaveLength(2);
    worker().answer();
    drag(100, 'z4');
    drag(100, 'z1');
    expect(worker().asked).toHaveLength(2);
    vi.advanceTimersByTime(DRAG_MS);
    expect(worker().asked).toHaveLength(3);
    expect(worker().last.plan.parts[ids.fuse]?.zone).toBe('z1');
  });

  it('a drag given up computes the plan as it stands again', () => {
    drag(100, 'z3');
    worker().answer();
    app.getState().setProvisional(null);
    worker().answer();
    expect(app.getState().resultsFor).toBe(first);
  });

  it('a drop is computed at once', () => {
    drag(100, 'z3');
    worker().answer();
    edit(app, (p) => movePart(p, ids.fuse, { x: 100, y: 0, zone: 'z3' }));
    expect(worker().last.plan).toBe(planOf(app));
  });
});

describe('sameElectric', () => {
  const changed = (make: (plan: Plan) => Edit) => sameElectric(first, done(first, make(first)));
  it('place, bends, widths and titles compute nothing new', () => {
    expect(changed((p) => movePart(p, ids.fuse, { x: 500, y: 90 }))).toBe(true);
    expect(changed((p) => setWire(p, ids.feedWire, { bends: [{ x: 1, y: 2 }] }))).toBe(true);
    expect(changed((p) => setZone(p, 'z1', { width: 400 }))).toBe(true);
    expect(changed((p) => setHead(p, { title: 'B' }))).toBe(true);
  });
  it('everything else does', () => {
    expect(changed((p) => movePart(p, ids.fuse, { x: 20, y: 40, zone: 'z3' }))).toBe(false);
    expect(changed((p) => setSetting(p, ids.fuse, 'ratingA', 7.5))).toBe(false);
    expect(changed((p) => setWire(p, ids.feedWire, { areaMm2: 2.5 }))).toBe(false);
    expect(changed((p) => setZone(p, 'z1', { maxC: 90 }))).toBe(false);
  });
});

describe('a button held down', () => {
  const moment = { readings: [], pins: [] };
  const tell = (request = worker().last) => worker().onmessage?.({ data: { id: request.id, moment } });

  it('is asked for once the plan has its results, and kept beside plan and buttons', () => {
    app.getState().press(ids.fuse);
    expect(worker().asked).toHaveLength(1);
    worker().answer();
    expect(worker().last).toMatchObject({ kind: 'pressed', plan: first, pressed: [ids.fuse] });
    expect(isMomentary(app.getState())).toBe(false);
    tell();
    expect(app.getState().momentary).toMatchObject({ moment, resultFor: first, pressed: [ids.fuse] });
    expect(isMomentary(app.getState())).toBe(true);
    expect(app.getState().busy).toBe(false);
  });

  it('let go, the plan’s own figures are there again without asking', () => {
    worker().answer();
    app.getState().press(ids.fuse);
    tell();
    app.getState().letGo();
    expect(isMomentary(app.getState())).toBe(false);
    expect(worker().asked).toHaveLength(2);
  });

  it('let go before the answer: the answer is dropped', () => {
    worker().answer();
    app.getState().press(ids.fuse);
    app.getState().press(ids.fuse);
    tell();
    expect(app.getState().momentary).toBeNull();
    expect(app.getState().busy).toBe(false);
  });

  it('after an edit it is asked anew, the plan first', () => {
    worker().answer();
    app.getState().press(ids.fuse);
    rate(10);
    tell();
    expect(worker().last.kind).toBeUndefined();
    worker().answer();
    expect(worker().last).toMatchObject({ kind: 'pressed', plan: planOf(app) });
    tell();
    expect(isMomentary(app.getState())).toBe(true);
  });

  it('a button that is removed comes up; another plan begins with none', () => {
    worker().answer();
    app.getState().press(ids.fuse);
    edit(app, (p) => removeItems(p, [ids.fuse]));
    expect(app.getState().pressed).toEqual([]);
    app.getState().undo();
    app.getState().press(ids.fuse);
    app.getState().load({ ...first, id: 'other' });
    expect(app.getState()).toMatchObject({ pressed: [], momentary: null });
  });

  it('an error is told, and the button comes up', () => {
    worker().answer();
    app.getState().press(ids.fuse);
    worker().onmessage?.({ data: { id: worker().last.id, error: 'no' } });
    expect(app.getState()).toMatchObject({ pressed: [], momentary: null, workerError: null, busy: false });
    expect(app.getState().notice?.kind).toBe('problem');
  });
});
