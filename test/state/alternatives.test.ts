import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Results } from '../../src/advise/types.ts';
import type { WorstMargin } from '../../src/analysis/time/types.ts';
import { writePlan } from '../../src/codec/index.ts';
import { alternativeTo } from '../../src/plan/alternatives.ts';
import { apply } from '../../src/plan/apply.ts';
import { addPart, addWire, movePart, setHead, splitWire } from '../../src/plan/edits.ts';
import { wireNumbers } from '../../src/plan/numbers.ts';
import type { Plan } from '../../src/plan/types.ts';
import { WRITE_MS } from '../../src/state/autosave.ts';
import { openFile } from '../../src/state/files.ts';
import { type OtherPort, type OtherRequest, workOutOther } from '../../src/state/otherClient.ts';
import { createSession, type Session } from '../../src/state/session.ts';
import type { KeptPlan } from '../../src/state/storage.ts';
import { type App, createApp } from '../../src/state/store.ts';
import { smallPlan } from '../plan/laws.ts';
import { edit, FakeChannels, FakeStorage, SECOND } from './fakes.ts';

const { plan: first, ids } = smallPlan();
const setNumber = (plan: Plan, id: string, number: number): Plan => ({ ...plan, wires: { ...plan.wires, [id]: { ...plan.wires[id]!, number } } });

describe('trying another wiring', () => {
  let app: App;
  let storage: FakeStorage;
  let session: Session;
  const open = (): Plan => app.getState().plan as Plan;
  beforeEach(async () => {
    vi.useFakeTimers();
    app = createApp();
    storage = new FakeStorage();
    session = createSession({ app, storage });
    await session.start();
    app.getState().load(first);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
  });
  afterEach(() => {
    session.stop();
    vi.useRealTimers();
  });

  it('opens a copy, with the last edits in it, and keeps both', async () => {
    edit(app, (p) => setHead(p, { title: 'Edited a moment ago' }));
    expect(await session.tryAnother()).toBe(true);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(open()).toMatchObject({ title: 'Edited a moment ago', alternative: { of: 'small', letter: 'B' } });
    expect(app.getState().past).toEqual([]);
    expect(
      app
        .getState()
        .plans.map((p) => p.alternative?.letter ?? 'A')
        .sort(),
    ).toEqual(['A', 'B']);
    expect((storage.kept.get('small') as KeptPlan).plan.title).toBe('Edited a moment ago');
  });

  it('leaves the first as it is, and reads it without opening it', async () => {
    await session.tryAnother();
    edit(app, (p) => movePart(p, ids.fuse as string, { x: 500, y: 0 }));
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    const { given, ...left } = (await session.peek('small')) as Plan;
    expect(left).toStrictEqual(first);
    expect(given?.wires).toEqual({ 1: ids.feedWire, 2: ids.loadWire });
    expect(open().alternative?.letter).toBe('B');
    expect(await session.peek('nowhere')).toBeNull();
  });

  it('gives no number that the other has given, in whichever order they are opened, also from a file and after undo', async () => {
    const wire = (): number => {
      const before = Object.keys(open().wires);
      edit(app, (p) => addWire(p, { part: ids.fuse, terminal: '1' }, { part: ids.resistor, terminal: '2' }).edit);
      const [id] = Object.keys(open().wires).filter((w) => !before.includes(w));
      return wireNumbers(open()).standing.get(id as string) as number;
    };
    await session.tryAnother();
    const b = open().id;
    expect(wire()).toBe(3);
    await session.openPlan('small');
    expect(wire()).toBe(4);
    app.getState().undo();
    await session.openPlan(b);
    // 4 is on record, though what had it is not there any more.
    expect(wire()).toBe(5);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    const { changed } = storage.kept.get('small') as KeptPlan;
    await vi.advanceTimersByTimeAsync(60_000);
    await session.openPlan('small');
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(app.getState().saved).toBe('saved');
    expect((storage.kept.get('small') as KeptPlan).changed, 'looking alone writes nothing').toBe(changed);

    // An early file of A, opened where only B is kept: B has 3 and 5.
    const text = writePlan({ ...first, id: 'small' });
    await session.removePlan('small');
    await openFile(app, { name: 'a.plan.json', size: text.length, text: async () => text }, session.place);
    expect([wire(), wire()]).toEqual([4, 6]);
  });

  it('tells once which numbers two wirings of an older edition have for different things, and renumbers nothing', async () => {
    const with1 = (plan: Plan): Plan => {
      const { given: _given, ...old } = plan;
      const wired = addWire(old, { part: ids.fuse, terminal: '1' }, { part: ids.resistor, terminal: '2' }).edit;
      const next = apply(old, wired);
      const part = next.ok ? apply(next.plan, addPart(next.plan, { kind: 'resistor', zone: 'z2', x: 0, y: 0 }).edit) : next;
      if (!part.ok) throw new Error(part.reason);
      return part.plan;
    };
    // In B the load wire was cut: its first piece bears its number, and is no other thing.
    const b = with1(alternativeTo(first, [first], 'plan-b') as Plan);
    const typed = setNumber(b, ids.loadWire, 2);
    const cut = apply(typed, splitWire(typed, ids.loadWire, { kind: 'splice', zone: 'z2', x: 0, y: 0 }, 's', 's').edit);
    app.getState().load(setNumber(with1(first), ids.loadWire, 2));
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    app.getState().load(cut.ok ? cut.plan : b);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    const told = () => app.getState().notice?.text ?? null;

    await session.openPlan('small');
    expect(told()).toBe(
      'Wiring B has other things under W3 and R2 than this one. All keep their numbers, because labels may be fitted already: look which wiring a sheet belongs to before you go by a number.',
    );
    expect(app.getState().notice).toMatchObject({ kind: 'info', stays: true });
    expect([...wireNumbers(open()).standing.values()].sort()).toEqual([1, 2, 3]);
    const text = writePlan(open());
    app.getState().setNotice(null);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    await session.openPlan('plan-b');
    app.getState().setNotice(null);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    for (const id of ['small', 'plan-b']) {
      await session.openPlan(id);
      expect(told()).toBeNull();
    }
    // A file brings it up again: it may be read by somebody who has not been told.
    await openFile(app, { name: 'a.plan.json', size: text.length, text: async () => text }, session.place);
    expect(told()).toMatch(/^Opened Small\.\nWiring B has other things under W3 and R2 than this one\./);
    expect(app.getState().notice?.stays).toBe(true);
  });

  it('hears of the numbers that another tab gives in another wiring', async () => {
    await session.tryAnother();
    const b = open().id;
    session.stop();
    const channels = new FakeChannels();
    const there = createApp();
    const [here, other] = [createSession({ app, storage, channel: channels.open() }), createSession({ app: there, storage, channel: channels.open() })];
    await here.start();
    await other.start();
    await other.openPlan('small');
    await here.openPlan(b);
    edit(there, (p) => addWire(p, { part: ids.fuse, terminal: '1' }, { part: ids.resistor, terminal: '2' }).edit);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(open().given?.wires[3]).toBeDefined();
    expect(app.getState().saved).toBe('saved');
    for (const one of [here, other]) one.stop();
  });

  it('tells nothing of one that this edition of the page cannot read', async () => {
    storage.kept.set('old', { version: 0, changed: 1, plan: { format: 'dashloom-plan', version: 99 }, past: [], future: [] });
    expect(await session.peek('old')).toBeNull();
  });

  it('does not put a copy in the place of a plan that is kept nowhere', async () => {
    for (const saved of ['off', 'failed'] as const) {
      app.setState({ saved, notice: null });
      expect(await session.tryAnother()).toBe(false);
      expect(open()).toBe(first);
      expect(app.getState().notice).toMatchObject({ kind: 'problem', action: { label: 'Save as a file' } });
    }
  });
});

describe('working out a plan that is not open', () => {
  function begin() {
    const sent: OtherRequest[] = [];
    const heard: unknown[] = [];
    const port = {
      ended: false,
      postMessage: (m) => void sent.push(m),
      terminate: () => {
        port.ended = true;
      },
      onmessage: null,
      onerror: null,
    } as OtherPort & {
      ended: boolean;
    };
    const end = workOutOther(
      first,
      { results: (r) => heard.push(['results', r]), margins: (m) => heard.push(['margins', m]), failed: (m) => heard.push(['failed', m]) },
      () => port,
    );
    const answer = (data: object): void => port.onmessage?.({ data: data as never });
    return { sent, heard, port, end, answer };
  }
  const results = { filled: first, analysis: { arrivals: [] }, report: { looked: 1 } } as unknown as Results;
  const margins = [{ part: 'p1', spareS: 3 }] as unknown as readonly WorstMargin[];

  it('tells whole results only, then the seconds, and lets the worker go', () => {
    const { sent, heard, port, answer } = begin();
    answer({ id: 1, results, more: true });
    expect([heard, sent.length]).toEqual([[], 1]);
    answer({ id: 1, look: SECOND });
    expect(heard).toMatchObject([['results', { report: { looked: 2 } }]]);
    expect(sent.map((m) => ('kind' in m ? m.kind : 'whole'))).toEqual(['whole', 'margins']);
    answer({ id: 2, share: 0.5 });
    answer({ id: 2, result: margins });
    expect(heard.slice(1)).toEqual([['margins', margins]]);
    expect(port.ended).toBe(true);
  });

  it('tells results that need no second look at once, and why it failed', () => {
    const { heard, port, answer } = begin();
    answer({ id: 1, results });
    answer({ id: 2, error: 'stuck' });
    expect(heard).toEqual([
      ['results', results],
      ['failed', 'stuck'],
    ]);
    expect(port.ended).toBe(true);
    const broken = begin();
    broken.port.onerror?.({ message: '' });
    expect(broken.heard).toEqual([['failed', 'the calculation stopped']]);
  });

  it('is not heard any more once it was ended', () => {
    const { heard, port, end, answer } = begin();
    end();
    answer({ id: 1, results });
    expect([heard, port.ended]).toEqual([[], true]);
  });
});
