import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { writePlan } from '../../src/codec/index.ts';
import { movePart, setHead } from '../../src/plan/edits.ts';
import { originOf, versionId } from '../../src/plan/new.ts';
import { BEHIND_TEXT } from '../../src/state/apart.ts';
import { FAILED_TEXT, RETRY_MS, WRITE_MS, WRITE_PATIENCE_MS } from '../../src/state/autosave.ts';
import { fileName, openFile, saveFile } from '../../src/state/files.ts';
import { attachPrefs, deviceLook } from '../../src/state/prefs.ts';
import { createSession, OFF_TEXT, OPEN_PATIENCE_MS, type Session } from '../../src/state/session.ts';
import type { KeptPlan } from '../../src/state/storage.ts';
import { type App, createApp } from '../../src/state/store.ts';
import { TWICE_TEXT } from '../../src/state/tabs.ts';
import { smallPlan } from '../plan/laws.ts';
import { edit, FakeChannels, FakeStorage, planOf } from './fakes.ts';

const { plan: first, ids } = smallPlan();
let app: App;
let storage: FakeStorage;
let session: Session;
let open: Session[];

const begin = (parts: Partial<Parameters<typeof createSession>[0]> = {}): Session => {
  const made = createSession({ app, storage, ...parts });
  open.push(made);
  return made;
};
const kept = (id = 'small') => storage.kept.get(id) as KeptPlan;
const title = (text: string) => edit(app, (p) => setHead(p, { title: text }));

beforeEach(() => {
  vi.useFakeTimers();
  app = createApp();
  storage = new FakeStorage();
  open = [];
  session = begin();
});
afterEach(() => {
  for (const one of open) one.stop();
  vi.useRealTimers();
});

describe('saving by itself', () => {
  beforeEach(async () => {
    await session.start();
    app.getState().load(first);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
  });

  it('writes a plan that was just opened, lists it and remembers it', () => {
    expect(kept().plan).toStrictEqual(first);
    expect(app.getState()).toMatchObject({ saved: 'saved', plans: [{ id: 'small', title: 'Small' }] });
    expect(storage.lastId).toBe('small');
  });

  it('writes an edit in time however many follow', async () => {
    title('A');
    expect(app.getState().saved).toBe('saving');
    await vi.advanceTimersByTimeAsync(WRITE_MS - 50);
    title('B');
    expect(storage.writes).toBe(1);
    await vi.advanceTimersByTimeAsync(50);
    expect(storage.writes).toBe(2);
    expect(kept().plan.title).toBe('B');
    expect(app.getState().saved).toBe('saved');
  });

  it('flushes at once when the page goes away', async () => {
    title('A');
    await session.flush();
    expect(kept().plan.title).toBe('A');
  });

  it('another plan opened before the last edit was written loses nothing', async () => {
    title('A');
    app.getState().load({ ...first, id: 'other' });
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(kept().plan.title).toBe('A');
    expect(kept('other').plan.id).toBe('other');
    expect(app.getState().saved).toBe('saved');
  });

  it.each(['fail', 'hang'] as const)('tells within 2 s when writing %ss, offers a file, and tries again', async (mode) => {
    storage.mode = mode;
    title('A');
    expect(WRITE_MS + WRITE_PATIENCE_MS).toBeLessThan(2000);
    await vi.advanceTimersByTimeAsync(WRITE_MS + WRITE_PATIENCE_MS);
    expect(app.getState().saved).toBe('failed');
    expect(app.getState().notice).toMatchObject({ kind: 'problem', text: FAILED_TEXT, action: { label: 'Save as a file' } });
    app.getState().setNotice(null);
    title('B');
    await vi.advanceTimersByTimeAsync(WRITE_MS + WRITE_PATIENCE_MS);
    expect(app.getState().saved).toBe('failed');
    expect(app.getState().notice).toBeNull();
    storage.mode = 'works';
    await vi.advanceTimersByTimeAsync(RETRY_MS);
    expect(app.getState().saved).toBe('saved');
    expect(kept().plan.title).toBe('B');
  });

  it('a write that is only late counts once it is there, without a second one', async () => {
    storage.mode = 'late';
    title('A');
    await vi.advanceTimersByTimeAsync(WRITE_MS + WRITE_PATIENCE_MS);
    expect(app.getState().saved).toBe('failed');
    storage.mode = 'works';
    storage.release();
    await vi.advanceTimersByTimeAsync(0);
    expect(app.getState()).toMatchObject({ saved: 'saved', notice: null });
    expect(kept().plan.title).toBe('A');
    const { writes } = storage;
    await vi.advanceTimersByTimeAsync(RETRY_MS);
    expect(storage.writes).toBe(writes);
  });
});

describe('coming back', () => {
  it('reopens the last plan with its undo and redo', async () => {
    await session.start();
    app.getState().load(first);
    edit(app, (p) => movePart(p, ids.fuse, { x: 200, y: 0 }));
    title('A');
    app.getState().undo();
    await session.flush();

    const later = createApp();
    await begin({ app: later }).start();
    expect(later.getState().started).toBe(true);
    expect(planOf(later)).toStrictEqual(planOf(app));
    later.getState().redo();
    expect(planOf(later).title).toBe('A');
    later.getState().undo();
    later.getState().undo();
    expect(planOf(later)).toStrictEqual(first);
  });

  it('does not write again what it has just read', async () => {
    storage.kept.set('small', { version: 1, changed: 1, plan: first, past: [], future: [] });
    storage.lastId = 'small';
    await session.start();
    await vi.advanceTimersByTimeAsync(5000);
    expect(storage.writes).toBe(0);
    expect(app.getState().saved).toBe('saved');
  });

  it('reads a plan of an older edition as a file, and asks no persistence before an edit', async () => {
    const { zones, ...rest } = first;
    const draft = { ...rest, version: 0, zones: Object.fromEntries(Object.entries(zones).map(([id, { kind: _kind, ...zone }]) => [id, zone])) };
    storage.kept.set('small', { version: 0, changed: 1, plan: draft, past: [{}], future: [] });
    storage.lastId = 'small';
    const persist = vi.fn();
    await begin({ persist }).start();
    expect(planOf(app).zones.z1?.kind).toBe('dash');
    expect(app.getState().past).toStrictEqual([]);
    expect(persist).not.toHaveBeenCalled();
    title('A');
    title('B');
    expect(persist).toHaveBeenCalledTimes(1);
  });

  it('writes over a plan of an older edition that another page had marked: it has been read', async () => {
    const { zones, ...rest } = first;
    const draft = { ...rest, version: 0, zones: Object.fromEntries(Object.entries(zones).map(([id, { kind: _kind, ...zone }]) => [id, zone])) };
    storage.kept.set('small', { version: 0, changed: 1, plan: draft, past: [], future: [], mark: 'a page of before.3' });
    storage.lastId = 'small';
    await session.start();
    title('A');
    await vi.advanceTimersByTimeAsync(5000);
    expect(app.getState().saved).toBe('saved');
    expect(storage.kept.get('small')).toMatchObject({ version: first.version, plan: { title: 'A' } });
  });

  it('starts with nothing open when the last plan is gone', async () => {
    storage.lastId = 'gone';
    await session.start();
    expect(app.getState()).toMatchObject({ plan: null, started: true });
    expect(app.getState().notice?.text).toContain('no longer');
  });

  it.each(['fail', 'hang'] as const)('says that nothing is kept when storage %ss', async (mode) => {
    storage.mode = mode;
    const started = session.start();
    await vi.advanceTimersByTimeAsync(OPEN_PATIENCE_MS);
    await started;
    expect(app.getState()).toMatchObject({ saved: 'off', started: true, notice: { text: OFF_TEXT } });
    // Nothing to save yet, so nothing is offered; with the first edit there is.
    expect(app.getState().notice?.action).toBeUndefined();
    app.getState().load(first);
    app.getState().setNotice(null);
    title('A');
    expect(app.getState().notice).toMatchObject({ text: OFF_TEXT, action: { label: 'Save as a file' } });
    app.getState().setNotice(null);
    title('B');
    expect(app.getState().notice).toBeNull();
    await vi.advanceTimersByTimeAsync(5000);
    expect(app.getState().saved).toBe('off');
  });

  it('removes a plan for good', async () => {
    await session.start();
    app.getState().load(first);
    title('A');
    await session.removePlan('small');
    await vi.advanceTimersByTimeAsync(5000);
    expect(storage.kept.size).toBe(0);
    expect(app.getState()).toMatchObject({ plan: null, plans: [] });
  });
});

describe('a page that goes away at once', () => {
  const texts = () => {
    const items = new Map<string, string>();
    return {
      items,
      get length() {
        return items.size;
      },
      key: (i: number) => [...items.keys()][i] ?? null,
      getItem: (k: string) => items.get(k) ?? null,
      setItem: (k: string, v: string) => void items.set(k, v),
      removeItem: (k: string) => void items.delete(k),
    };
  };

  it('finds the last edit again although the database write was cut off', async () => {
    const rescue = texts();
    session = begin({ rescue });
    await session.start();
    app.getState().load(first);
    await session.flush();
    await vi.advanceTimersByTimeAsync(1000);
    title('Last words');
    storage.mode = 'hang';
    session.leave();
    expect(rescue.length).toBe(1);
    storage.mode = 'works';
    const later = createApp();
    await begin({ app: later, rescue }).start();
    expect(planOf(later).title).toBe('Last words');
    later.getState().undo();
    expect(planOf(later)).toStrictEqual(first);
    expect(rescue.length).toBe(0);
  });

  it('leaves nothing behind once the write has worked, and never goes back to older text', async () => {
    const rescue = texts();
    session = begin({ rescue });
    await session.start();
    app.getState().load(first);
    title('A');
    session.leave();
    const old = [...rescue.items];
    await session.flush();
    expect(rescue.length).toBe(0);
    await vi.advanceTimersByTimeAsync(1000);
    title('B');
    await session.flush();
    for (const [key, text] of old) rescue.items.set(key, text);
    rescue.items.set('dashloom.unsaved.junk', '{');
    const later = createApp();
    await begin({ app: later, rescue }).start();
    expect(planOf(later).title).toBe('B');
    expect(rescue.length).toBe(0);
  });
});

describe('two tabs', () => {
  it('the later one is told, the earlier one is not', async () => {
    const channels = new FakeChannels();
    const other = createApp();
    await begin({ channel: channels.open() }).start();
    app.getState().load(first);
    await begin({ app: other, channel: channels.open() }).start();
    other.getState().load({ ...first, id: 'another' });
    expect(other.getState().notice).toBeNull();
    other.getState().load(first);
    expect(other.getState().notice?.text).toBe(TWICE_TEXT);
    expect(app.getState().notice).toBeNull();
  });
});

describe('two tabs on one plan', () => {
  let other: App;
  let there: Session;
  const both = async (): Promise<void> => {
    await session.start();
    app.getState().load(first);
    await session.flush();
    other = createApp();
    there = begin({ app: other });
    await there.start();
    expect(planOf(other)).toEqual(first);
  };
  const titles = () => [...storage.kept.values()].map((k) => (k as KeptPlan).plan.title).sort();

  it.each(['earlier', 'later'] as const)('when the %s one writes first, the other one does not write over it', async (which) => {
    await both();
    const [one, two] = which === 'earlier' ? [app, other] : [other, app];
    edit(one, (p) => setHead(p, { title: 'One' }));
    edit(two, (p) => setHead(p, { title: 'Two' }));
    await (which === 'earlier' ? session : there).flush();
    await (which === 'earlier' ? there : session).flush();
    expect(kept().plan.title).toBe('One');
    expect(two.getState()).toMatchObject({ saved: 'behind', notice: { text: BEHIND_TEXT } });
    expect(one.getState()).toMatchObject({ saved: 'saved', notice: null });
    // The first one works on.
    edit(one, (p) => setHead(p, { title: 'One more' }));
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(kept().plan.title).toBe('One more');
  });

  const apart = async (): Promise<void> => {
    await both();
    title('One');
    await session.flush();
    edit(other, (p) => setHead(p, { title: 'Two' }));
    await there.flush();
  };
  const press = (label: RegExp): void => {
    const { notice } = other.getState();
    [notice?.action, ...(notice?.also ?? [])].find((a) => a && label.test(a.label))?.run();
  };

  it('taken back to what was opened, it is still not what is kept', async () => {
    await apart();
    other.getState().undo();
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(planOf(other)).toEqual(first);
    expect(other.getState().saved).toBe('behind');
    expect(kept().plan.title).toBe('One');
  });

  it('mine can go on as a plan of its own, with its undo', async () => {
    await apart();
    press(/plan of its own/);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(titles()).toEqual(['One', 'Two, second tab']);
    expect(other.getState()).toMatchObject({ saved: 'saved', past: [{}] });
  });

  it('the other tab’s can be taken, and mine is kept beside it', async () => {
    await apart();
    press(/other tab/);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(planOf(other).title).toBe('One');
    expect(other.getState().saved).toBe('saved');
    expect(titles()).toEqual(['One', 'Two, second tab']);
    edit(other, (p) => setHead(p, { title: 'Three' }));
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(titles()).toEqual(['Three', 'Two, second tab']);
  });

  it('closed or left without a choice, mine is kept beside the other', async () => {
    await apart();
    other.getState().close();
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(titles()).toEqual(['One', 'Two, second tab']);
  });

  it('when the other tab wrote nothing and is closed, the plan is free', async () => {
    await both();
    session.stop();
    edit(other, (p) => setHead(p, { title: 'Two' }));
    await there.flush();
    expect(kept().plan.title).toBe('Two');
    expect(other.getState().notice).toBeNull();
  });
});

describe('files', () => {
  const file = (text: string, name = 'van.plan.json') => ({ name, size: text.length, text: async () => text });

  it('opens what was saved', async () => {
    app.getState().load(first);
    let saved = { name: '', text: '' };
    await saveFile(app, (name, text) => {
      saved = { name, text };
    });
    expect(saved).toStrictEqual({ name: 'Small.plan.json', text: writePlan(first) });
    const other = createApp();
    expect(await openFile(other, file(saved.text))).toBe(true);
    expect(planOf(other)).toStrictEqual(first);
  });

  it('names the problems and leaves the open plan alone', async () => {
    app.getState().load(first);
    const bad = writePlan(first).replace('"ratingA":5', '"ratingA":900');
    expect(await openFile(app, file(bad))).toBe(false);
    expect(app.getState().notice?.text).toBe(
      `van.plan.json was not opened; nothing has been changed.\nparts › ${ids.fuse} (blade-fuse) › ratingA: 900 is above the largest allowed 40 A`,
    );
    expect(planOf(app)).toBe(first);
    expect(await openFile(app, { ...file(''), size: 6_000_000 })).toBe(false);
    expect(app.getState().notice?.text).toContain('larger than 5 MB');
    expect(await openFile(app, { ...file(''), text: () => Promise.reject(new Error('gone')) })).toBe(false);
    expect(app.getState().notice?.text).toContain('could not read');
  });

  it('an older file does not overwrite what this browser keeps', async () => {
    await session.start();
    app.getState().load(first);
    title('Newer');
    await session.flush();
    expect(await openFile(app, file(writePlan(first)), session.place)).toBe(true);
    await vi.advanceTimersByTimeAsync(WRITE_MS);
    expect(kept().plan.title).toBe('Newer');
    // Another plan, of which is still known what it is a version of: the demo opened again is the demo.
    expect(planOf(app).id).not.toBe('small');
    expect(originOf(planOf(app).id)).toBe('small');
    expect(originOf(versionId(planOf(app).id))).toBe('small');
    expect(app.getState().notice?.text).toContain('both are kept');
    expect(await openFile(app, file(writePlan(kept().plan)), session.place)).toBe(true);
    expect(planOf(app).id).toBe('small');
  });

  it('file names survive any title', () => {
    expect(fileName({ title: '  ../My van: "red" ' })).toBe('My van red.plan.json');
    expect(fileName({ title: '' })).toBe('plan.plan.json');
    expect(fileName({ title: 'Lieferwagen Süd' })).toBe('Lieferwagen Süd.plan.json');
  });
});

describe('how a person likes to see things', () => {
  it('is kept, and nonsense in storage does no harm', () => {
    const items = new Map<string, string>();
    const store = { getItem: (k: string) => items.get(k) ?? null, setItem: (k: string, v: string) => void items.set(k, v) };
    attachPrefs(app, store);
    app.getState().setTheme('contrast');
    app.getState().setUnits({ area: 'awg', length: 'ft' });
    const later = createApp();
    attachPrefs(later, store);
    expect(later.getState()).toMatchObject({ theme: 'contrast', units: { area: 'awg', length: 'ft' }, showFigures: true });
    for (const text of ['{', '7', 'null', '{"theme":"pink","units":3}']) {
      const bare = createApp();
      attachPrefs(bare, { getItem: () => text, setItem: () => undefined });
      expect(bare.getState()).toMatchObject({ theme: 'light', units: { area: 'mm2', length: 'm' } });
    }
    attachPrefs(createApp(), null);
  });

  it('follows the device until a theme is chosen, and keeps the choice', () => {
    const items = new Map<string, string>();
    const store = { getItem: (k: string) => items.get(k) ?? null, setItem: (k: string, v: string) => void items.set(k, v) };
    let look: 'light' | 'dark' | 'contrast' = 'dark';
    const told: (() => void)[] = [];
    const device = { theme: () => look, onChange: (f: () => void) => void told.push(f) };
    const turn = (to: typeof look) => {
      look = to;
      for (const f of told) f();
    };
    attachPrefs(app, store, device);
    expect(app.getState().theme).toBe('dark');
    // Another preference is kept without making the device's theme a choice.
    app.getState().setUnits({ area: 'awg', length: 'm' });
    turn('contrast');
    expect(app.getState().theme).toBe('contrast');
    const second = createApp();
    attachPrefs(second, store, device);
    expect(second.getState()).toMatchObject({ theme: 'contrast', units: { area: 'awg' } });
    second.getState().setTheme('light');
    turn('dark');
    expect(second.getState().theme).toBe('light');
    const third = createApp();
    attachPrefs(third, store, device);
    expect(third.getState().theme).toBe('light');
  });

  it('more contrast and dark are two questions', () => {
    const asked = (on: readonly string[]) =>
      deviceLook((text) => ({ matches: on.some((w) => text.includes(w)), addEventListener: () => undefined }) as unknown as MediaQueryList).theme();
    expect([asked([]), asked(['dark']), asked(['contrast']), asked(['dark', 'contrast'])]).toEqual(['light', 'dark', 'contrast', 'contrast-dark']);
  });
});
