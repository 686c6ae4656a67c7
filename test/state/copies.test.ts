import { describe, expect, it } from 'vitest';
import { writePlan } from '../../src/codec/index.ts';
import { setHead } from '../../src/plan/edits.ts';
import { attachCopies } from '../../src/state/copies.ts';
import { openFile, saveFile } from '../../src/state/files.ts';
import { type App, createApp } from '../../src/state/store.ts';
import { lastCopy, wantsCopy } from '../../src/ui/lastCopy.ts';
import { smallPlan } from '../plan/laws.ts';
import { edit } from './fakes.ts';

const { plan } = smallPlan();

/** Texts of a browser that keeps them, or refuses to. */
function texts(refuses = false): Storage {
  const rows = new Map<string, string>();
  return {
    getItem: (key: string) => rows.get(key) ?? null,
    setItem: (key: string, text: string) => {
      if (refuses) throw new Error('full');
      rows.set(key, text);
    },
  } as unknown as Storage;
}

/** An app whose clock stands still between `count` edits that are each an entry of undo. */
function edited(app: App, count: number): void {
  for (let i = 0; i < count; i++) {
    edit(app, (p) => setHead(p, { title: `T${i}` }));
    edit(app, (p) => setHead(p, { note: `${p.note}.` }));
  }
}

function opened(store: Storage | null = texts()): App {
  const app = createApp();
  attachCopies(app, store);
  app.getState().load(plan);
  return app;
}

const said = (app: App): string | null => (wantsCopy(app.getState().copied) ? lastCopy(app.getState().copied) : null);

describe('the last copy', () => {
  it('is "never" from the 20th edit on', () => {
    const app = opened();
    edited(app, 9);
    expect(said(app)).toBeNull();
    edited(app, 1);
    expect(app.getState().copied).toEqual({ at: null, edits: 20 });
    expect(said(app)).toBe('last copy: never');
  });

  it('is today once a file was saved, and told again after 20 more', async () => {
    const app = opened();
    edited(app, 12);
    await saveFile(app, () => undefined);
    expect(said(app)).toBeNull();
    edited(app, 10);
    expect(said(app)).toMatch(/^last copy: \d{4}-\d{2}-\d{2}$/);
  });

  it('is the file that was opened', async () => {
    const app = opened();
    edited(app, 12);
    const text = writePlan({ ...plan, id: 'other' });
    await openFile(app, { name: 'x.plan.json', size: text.length, text: () => Promise.resolve(text) });
    expect(app.getState().copied.at).not.toBeNull();
    expect(app.getState().copied.edits).toBe(0);
  });

  it('is remembered for each plan beyond this visit', async () => {
    const store = texts();
    const app = opened(store);
    edited(app, 15);
    app.getState().load({ ...plan, id: 'other' });
    expect(app.getState().copied).toEqual({ at: null, edits: 0 });

    const later = createApp();
    attachCopies(later, store);
    later.getState().load(plan);
    expect(later.getState().copied).toEqual({ at: null, edits: 30 });
  });

  it('is counted for this visit where nothing can be kept or what is kept is unreadable', () => {
    const app = opened(texts(true));
    edited(app, 10);
    expect(said(app)).toBe('last copy: never');
    const broken = texts();
    broken.setItem('dashloom.copies', '[["small"],7,{"a":1}');
    expect(opened(broken).getState().copied).toEqual({ at: null, edits: 0 });
  });
});
