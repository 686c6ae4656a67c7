import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { defaultScenario } from '../../src/analysis/time/scenario.ts';
import type { KeyCycle, Spread } from '../../src/analysis/time/types.ts';
import { movePart, setSetting } from '../../src/plan/edits.ts';
import { type App, createApp } from '../../src/state/store.ts';
import { attachTime, GRACE_MS, LONG_QUIET_MS, QUIET_MS, type TimePort, type TimeRequest } from '../../src/state/timeClient.ts';
import type { TimeTask } from '../../src/state/types.ts';
import { smallPlan } from '../plan/laws.ts';
import { bench } from '../rules/plans.ts';
import { edit, planOf } from './fakes.ts';

/** A worker that answers only when told to. */
class FakeTimeWorker implements TimePort {
  onmessage: TimePort['onmessage'] = null;
  onerror: TimePort['onerror'] = null;
  readonly asked: TimeRequest[] = [];
  ended = false;
  postMessage(request: TimeRequest): void {
    this.asked.push(request);
  }
  terminate(): void {
    this.ended = true;
  }
  of(kind: TimeRequest['kind']): readonly TimeRequest[] {
    return this.asked.filter((r) => r.kind === kind);
  }
  last(kind: TimeTask): Extract<TimeRequest, { kind: TimeTask }> {
    return this.of(kind).at(-1) as Extract<TimeRequest, { kind: TimeTask }>;
  }
  /** Answers with a result that can be told apart; the store never looks inside. */
  answer(kind: TimeTask, mark = 'done', request = this.last(kind)): void {
    this.onmessage?.({ data: { id: request.id, result: { mark } as unknown as KeyCycle } });
  }
}

const { plan: first, ids } = smallPlan();
let workers: FakeTimeWorker[];
let app: App;
let detach: () => void;
const worker = (): FakeTimeWorker => workers.at(-1) as FakeTimeWorker;
const editOnly = (value: number): void => edit(app, (p) => setSetting(p, ids.fuse, 'ratingA', value));
/** An edit, and then the plan is left alone. */
const rate = (value: number): void => {
  editOnly(value);
  vi.advanceTimersByTime(LONG_QUIET_MS);
};
const markOf = (task: TimeTask): unknown => (app.getState()[task].result as { mark?: string } | null)?.mark;

beforeEach(() => {
  vi.useFakeTimers();
  workers = [];
  app = createApp();
  app.getState().load(first);
  detach = attachTime(app, () => {
    workers.push(new FakeTimeWorker());
    return worker();
  });
});
afterEach(() => {
  detach();
  vi.useRealTimers();
});

describe('a task is computed while somebody watches it', () => {
  it('nothing is asked, nor a worker started, before', () => {
    rate(10);
    expect(workers).toEqual([]);
  });

  it('asks once for two watchers, and keeps the result beside its plan', () => {
    app.getState().watch('cycle');
    const end = app.getState().watch('cycle');
    expect(worker().of('cycle')).toHaveLength(1);
    expect(app.getState().cycle).toMatchObject({ busy: true, share: 0 });
    worker().answer('cycle');
    expect(app.getState().cycle).toMatchObject({ busy: false, share: 1, error: null });
    expect(app.getState().cycle.resultFor).toBe(first);
    end();
    end();
    rate(10);
    expect(worker().of('cycle')).toHaveLength(2);
  });

  it('no longer once nobody does', () => {
    app.getState().watch('weeks')();
    expect(app.getState().weeks.busy).toBe(false);
    rate(10);
    expect(worker().of('weeks')).toHaveLength(1);
    expect(worker().of('stop')).toHaveLength(1);
  });

  it('what has been computed is not computed again when it is watched again', () => {
    const end = app.getState().watch('weeks');
    worker().answer('weeks');
    end();
    app.getState().watch('weeks');
    expect(worker().of('weeks')).toHaveLength(1);
  });

  it('a plan in the middle of a drag is not computed; a drop that changes only the drawing keeps its result', () => {
    app.getState().watch('weeks');
    worker().answer('weeks');
    app.getState().setProvisional({ ...first, note: 'drag' });
    expect(worker().of('weeks')).toHaveLength(1);
    edit(app, (p) => movePart(p, ids.fuse, { x: 300, y: 90 }));
    expect(worker().of('weeks')).toHaveLength(1);
    expect(app.getState().weeks.resultFor).toBe(planOf(app));
  });
});

describe('the plain figures come first', () => {
  it('of edits in quick succession only the last is computed, once the plan is left alone', () => {
    app.getState().watch('cycle');
    worker().answer('cycle');
    for (const value of [10, 15, 20]) {
      editOnly(value);
      expect(app.getState().cycle.busy).toBe(true);
      vi.advanceTimersByTime(QUIET_MS - 1);
    }
    expect(worker().of('cycle')).toHaveLength(1);
    vi.advanceTimersByTime(1);
    expect(worker().of('cycle')).toHaveLength(2);
    expect(worker().last('cycle').plan).toBe(app.getState().plan);
  });

  it('nothing is asked while they are being worked out', () => {
    app.getState().watch('margins');
    worker().answer('margins');
    editOnly(10);
    app.setState({ busy: true });
    vi.advanceTimersByTime(5 * LONG_QUIET_MS);
    expect(worker().of('margins')).toHaveLength(1);
    app.setState({ busy: false });
    expect(worker().of('margins')).toHaveLength(2);
  });

  it('the turn of the key follows first, what takes longer a little later', () => {
    for (const task of ['margins', 'cycle'] as const) app.getState().watch(task);
    for (const task of ['margins', 'cycle'] as const) worker().answer(task);
    editOnly(10);
    vi.advanceTimersByTime(QUIET_MS);
    expect([worker().of('cycle').length, worker().of('margins').length]).toEqual([2, 1]);
    vi.advanceTimersByTime(LONG_QUIET_MS - QUIET_MS);
    expect([worker().of('cycle').length, worker().of('margins').length]).toEqual([2, 2]);
  });

  it('a moved moment of the turn of the key does not wait', () => {
    app.getState().watch('cycle');
    worker().answer('cycle');
    app.getState().setScenario({ keyOffS: 33 });
    expect(worker().of('cycle')).toHaveLength(2);
  });

  it('what is called off, or watched no more, before it began is not computed', () => {
    const end = app.getState().watch('margins');
    app.getState().watch('weeks');
    worker().answer('margins');
    worker().answer('weeks');
    editOnly(10);
    app.getState().cancel('weeks');
    end();
    vi.advanceTimersByTime(LONG_QUIET_MS);
    expect(worker().of('weeks')).toHaveLength(1);
    expect(worker().of('margins')).toHaveLength(1);
    expect(app.getState().margins.busy).toBe(false);
  });
});

describe('the newest wins', () => {
  it('what can hear is stopped at once', () => {
    app.getState().watch('margins');
    const old = worker().last('margins');
    rate(10);
    expect(worker().of('stop')).toEqual([{ kind: 'stop', id: old.id }]);
    expect(worker().last('margins').plan).toBe(planOf(app));
    worker().answer('margins', 'late', old);
    expect(app.getState().margins.result).toBeNull();
    worker().answer('margins');
    expect(app.getState().margins.resultFor).toBe(planOf(app));
  });

  it('a turn of the key may finish if it is quick: its result shows, then the newest is asked', () => {
    app.getState().watch('cycle');
    for (const a of [10, 15, 20]) editOnly(a);
    vi.advanceTimersByTime(QUIET_MS);
    expect(worker().of('cycle')).toHaveLength(1);
    worker().answer('cycle', 'older');
    expect(markOf('cycle')).toBe('older');
    expect(worker().of('cycle')).toHaveLength(2);
    expect(worker().last('cycle').plan).toBe(planOf(app));
  });

  it('one that is not quick goes with its worker, and what else was wanted is asked of the next', () => {
    app.getState().watch('cycle');
    app.getState().watch('spread');
    rate(10);
    expect(workers).toHaveLength(1);
    vi.advanceTimersByTime(GRACE_MS);
    expect(workers).toHaveLength(2);
    expect(workers[0]?.ended).toBe(true);
    expect(worker().last('cycle').plan).toBe(planOf(app));
    expect(worker().last('spread').plan).toBe(planOf(app));
  });

  it('another document takes nothing over', () => {
    app.getState().watch('weeks');
    worker().answer('weeks');
    app.getState().load({ ...first, id: 'other' });
    expect(app.getState().weeks.result).toBeNull();
    expect(worker().of('weeks')).toHaveLength(2);
    app.getState().close();
    expect(app.getState().weeks.busy).toBe(false);
  });
});

describe('progress, stop and trouble', () => {
  it('shows the share, and what is known of a spread so far', () => {
    app.getState().watch('spread');
    const { id } = worker().last('spread');
    worker().onmessage?.({ data: { id, share: 0.25, partial: { done: 100 } as Spread } });
    expect(app.getState().spread).toMatchObject({ busy: true, share: 0.25, result: { done: 100 } });
    expect(app.getState().spread.resultFor).toBe(first);
  });

  it('cancel stops a task for good, until something changes', () => {
    app.getState().watch('spread');
    app.getState().cancel('spread');
    expect(worker().of('stop')).toHaveLength(1);
    expect(app.getState().spread.busy).toBe(false);
    expect(worker().of('spread')).toHaveLength(1);
    rate(10);
    expect(worker().of('spread')).toHaveLength(2);
  });

  it('cancel of a turn of the key ends its worker; `again` starts it', () => {
    app.getState().watch('cycle');
    app.getState().cancel('cycle');
    expect(worker().ended).toBe(true);
    expect(workers).toHaveLength(1);
    app.getState().again('cycle');
    expect(workers).toHaveLength(2);
    expect(app.getState().cycle.busy).toBe(true);
  });

  it('an error is told, and not asked again by itself', () => {
    app.getState().watch('weeks');
    worker().onmessage?.({ data: { id: worker().last('weeks').id, error: 'no rest' } });
    expect(app.getState().weeks).toMatchObject({ error: 'no rest', busy: false });
    expect(worker().of('weeks')).toHaveLength(1);
    app.getState().again('weeks');
    expect(app.getState().weeks.error).toBeNull();
    worker().answer('weeks');
    expect(app.getState().weeks).toMatchObject({ error: null, busy: false });
  });

  it('a crashed worker is replaced at the next change', () => {
    app.getState().watch('margins');
    worker().onerror?.({ message: 'boom' });
    expect(app.getState().margins.error).toContain('boom');
    rate(10);
    expect(workers).toHaveLength(2);
    expect(worker().last('margins').plan).toBe(planOf(app));
  });

  it('a browser without workers is told', () => {
    const bare = createApp();
    bare.getState().load(first);
    attachTime(bare, () => {
      throw new Error('no Worker');
    });
    bare.getState().watch('cycle');
    expect(bare.getState().cycle).toMatchObject({ busy: false, error: 'The calculation could not start: no Worker' });
  });
});

describe('moments of the key', () => {
  it('a moved moment is computed, in order, and only for the turn of the key', () => {
    app.getState().watch('cycle');
    app.getState().watch('weeks');
    worker().answer('cycle');
    worker().answer('weeks');
    app.getState().setScenario({ startS: 0 });
    const { scenario } = app.getState().cycle;
    expect(scenario.startS).toBeGreaterThan(scenario.keyOnS);
    expect(worker().last('cycle')).toMatchObject({ scenario });
    expect(worker().of('weeks')).toHaveLength(1);
  });

  it('as long as nobody moved one they are the plan’s own', () => {
    const b = bench();
    app.getState().load(b.plan);
    edit(app, (p) => setSetting(p, b.id('relay'), 'holdS', 300));
    expect(app.getState().cycle.scenario).toEqual(defaultScenario(planOf(app)));
    expect(app.getState().cycle.scenario.untilS).toBeGreaterThan(330);
    app.getState().setScenario({ band: 'low' });
    edit(app, (p) => setSetting(p, b.id('relay'), 'holdS', 200));
    expect(app.getState().cycle.scenario).toEqual({ ...defaultScenario(planOf(app)), band: 'low' });
    app.getState().setScenario({ keyOffS: 90 });
    const moved = app.getState().cycle.scenario;
    edit(app, (p) => setSetting(p, b.id('relay'), 'holdS', 20));
    expect(app.getState().cycle.scenario).toEqual(moved);
    app.getState().setScenario(null);
    expect(app.getState().cycle.scenario).toEqual(defaultScenario(planOf(app)));
  });
});
