import { readFileSync } from 'node:fs';
import { type Download, expect, type Page } from '@playwright/test';
import type { Plan } from '../src/plan/types.ts';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';
import { emptied, test } from './standing.ts';

// What is kept is looked at: nothing is, to begin with.
test.use({ empty: true });

/** Written by the edit at the latest so long ago must be there after a crash, ms. */
const LOST_AT_MOST_MS = 500;

/** A further tab of the same browser. */
const tab = (page: Page): Promise<Page> => page.context().newPage();

async function opened(page: Page, title?: string): Promise<App> {
  const app = new App(page);
  await app.openPlan(smallPlan(title));
  return app;
}

async function nudge(app: App): Promise<void> {
  await app.selectPart('Converter');
  await app.press('ArrowDown');
}

async function menu(app: App, item: string): Promise<void> {
  await app.click(app.page.getByRole('button', { name: 'Plans and files' }));
  await app.click(app.page.getByRole('button', { name: item }));
}

async function planIn(download: Download): Promise<Plan> {
  return JSON.parse(readFileSync(await download.path(), 'utf8')) as Plan;
}

test('a reload keeps the plan, undo and redo; an edit made just before the page is closed is there when it is opened again', async ({ page }) => {
  const app = await opened(await tab(page));
  const first = await app.plan();
  await nudge(app);
  const second = await app.plan();
  await app.press('r');
  const third = await app.plan();
  await app.press('Control+z');
  await app.saved();
  await app.page.reload();
  await expect(app.undoButton).toBeEnabled();
  expect(await app.plan()).toEqual(second);
  await app.redo();
  expect((await app.plan()).parts).toEqual(third.parts);
  await app.undo();
  await app.undo();
  expect((await app.plan()).parts).toEqual(first.parts);
  await app.saved();

  await nudge(app);
  const edited = await app.plan();
  await app.page.close({ runBeforeUnload: true });
  const again = new App(page);
  await page.goto('./');
  await again.settled();
  expect(await again.plan()).toEqual(edited);
});

test('several plans are kept side by side, opened from the list, and deleted only when confirmed', async ({ page }) => {
  const app = await opened(page, 'First van');
  await app.saved();
  await menu(app, 'Close this plan');
  await app.openFile('second.plan.json', JSON.stringify(smallPlan('Second van')));
  await app.settled();
  await nudge(app);
  await app.saved();
  const second = await app.plan();

  await menu(app, 'First van');
  await expect(page).toHaveTitle(/First van/);
  expect((await app.plan()).parts).toEqual(smallPlan('First van').parts);
  await menu(app, 'Close this plan');
  const kept = page.getByRole('region', { name: 'Plans kept in this browser' });
  await expect(kept.getByRole('listitem')).toHaveCount(2);

  await app.click(kept.getByRole('button', { name: 'Delete First van' }));
  await app.click(page.getByRole('button', { name: 'Keep it' }));
  await expect(kept.getByRole('listitem')).toHaveCount(2);
  await app.click(kept.getByRole('button', { name: 'Delete First van' }));
  await app.click(page.getByRole('button', { name: 'Delete it' }));
  await expect(kept.getByRole('listitem')).toHaveCount(1);
  await page.reload();
  await expect(kept.getByRole('listitem')).toHaveCount(1);
  await app.click(kept.getByRole('button', { name: /^Second van/ }));
  await app.settled();
  expect(await app.plan()).toEqual(second);
  await expect(app.undoButton).toHaveAccessibleName(/^Undo: /);
});

test('saved as a file and opened again, the plan is the same', async ({ page }) => {
  const app = await opened(page);
  await nudge(app);
  const edited = await app.plan();
  const saving = page.waitForEvent('download');
  await app.press('Control+s');
  const download = await saving;
  expect(download.suggestedFilename()).toBe('Small plan.plan.json');
  const text = readFileSync(await download.path(), 'utf8');

  // Another person's browser.
  await emptied(page);
  await app.openStart();
  await app.openFile(download.suggestedFilename(), text);
  await app.settled();
  expect(await app.plan()).toEqual(edited);
});

test('a broken file is refused with what and where, and nothing is lost', async ({ page }) => {
  const whole = JSON.stringify(smallPlan('Broken'));
  const bent = (change: (plan: Record<string, Record<string, Record<string, unknown>>>) => void): string => {
    const plan = JSON.parse(whole);
    change(plan);
    return JSON.stringify(plan);
  };
  const broken: readonly (readonly [what: string, text: string, ...says: RegExp[]])[] = [
    ['cut off', whole.slice(0, 900), /JSON/],
    ['a rating that no fuse has', bent((p) => Object.assign(p.parts?.p13 ?? {}, { settings: { ratingA: 5000 } })), /p13/, /ratingA/, /5000/],
    ['a kind that is not known', bent((p) => Object.assign(p.parts?.p14 ?? {}, { kind: 'flux-compensator' })), /p14/, /flux-compensator/],
    ['a wire that ends nowhere', bent((p) => Object.assign(p.wires?.w23 ?? {}, { to: { part: 'p99', terminal: 'in' } })), /w23/, /p99/],
    ['a later format', bent((p) => Object.assign(p, { version: 99 })), /version|edition|newer/i],
    ['something else', '{"format":"shopping-list","milk":2}', /plan/],
  ];
  const app = await opened(page);
  await nudge(app);
  const before = await app.plan();
  for (const [what, text, ...says] of broken) {
    await test.step(what, async () => {
      const name = `${what}.json`;
      await app.openFile(name, text);
      await expect(app.toast).toContainText(`${name} was not opened`);
      for (const each of says) await expect(app.toast).toContainText(each);
      expect(await app.plan()).toEqual(before);
      await expect(app.undoButton).toHaveAccessibleName(/^Undo: /);
      await app.closeToast();
    });
  }
});

test('a page that dies loses at most its last half second', async ({ page }) => {
  const app = await opened(await tab(page));
  await app.saved();
  await nudge(app);
  const old = await app.plan();
  // The time itself is what is promised here.
  await app.page.waitForTimeout(LOST_AT_MOST_MS);
  await die(app.page);

  const second = new App(await tab(page));
  await second.page.goto('./');
  await second.settled();
  expect(await second.plan()).toEqual(old);
  await nudge(second);
  const young = await second.plan();
  await die(second.page);

  const third = new App(page);
  await page.goto('./');
  await third.settled();
  expect([old, young]).toContainEqual(await third.plan());
  await expect(third.undoButton).toHaveAccessibleName(/^Undo: /);
});

test('after 20 edits without a copy the page says so; a file saved is a copy, and a reload remembers it', async ({ page }) => {
  const app = new App(page);
  // A plan that came out of a file would have a copy.
  await app.planMine();
  await app.shelf.getByRole('button', { name: 'Touch display', exact: true }).focus();
  await app.press('Enter');
  await app.saved();
  await app.outline.getByRole('button', { name: /^Touch display/ }).focus();
  await app.press('Enter');
  await expect(app.card).toBeVisible();
  // Each turn is an entry of undo of its own.
  for (let i = 0; i < 10; i++) for (const key of ['r', 'Control+z']) await app.press(key);
  await expect(app.saveState).toHaveText('Saved here, last copy: never');
  await page.reload();
  await expect(app.saveState).toHaveText('Saved here, last copy: never');
  await app.click(page.getByRole('button', { name: 'Plans and files' }));
  const saving = page.waitForEvent('download');
  await app.click(page.getByRole('button', { name: 'Save as a file last copy: never' }));
  await saving;
  await expect(app.saveState).toHaveText('Saved here');
  await page.reload();
  await app.click(page.getByRole('button', { name: 'Plans and files' }));
  await expect(page.getByRole('button', { name: /Save as a file last copy: \d{4}-\d\d-\d\d/ })).toBeVisible();
});

test('a full disk is told within 2 s, with the way out; saving goes on when there is room again', async ({ page }) => {
  const app = await opened(page);
  await app.saved();
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put;
    Reflect.set(window, '__full', true);
    IDBObjectStore.prototype.put = function (...args) {
      if (Reflect.get(window, '__full') === true) throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, args);
    };
  });
  await nudge(app);
  await expect(app.toast).toContainText('could not be saved', { timeout: 2000 });
  await expect(app.saveState).toHaveText(/^Not saved/);
  const saving = page.waitForEvent('download');
  await app.click(app.toast.getByRole('button', { name: 'Save as a file' }));
  expect(await planIn(await saving)).toEqual(await app.plan());

  await page.evaluate(() => Reflect.set(window, '__full', false));
  await app.press('ArrowDown');
  await app.saved();
});

test.describe('two tabs on one plan', () => {
  /** One tab with the plan open and kept, and a later one, which has been told. */
  const twoTabs = async (page: Page): Promise<{ readonly one: App; readonly two: App }> => {
    const one = await opened(await tab(page));
    await one.saved();
    const two = new App(page);
    await lookAt(two);
    await page.goto('./');
    await two.settled();
    await expect(two.toast).toContainText('already open in another tab');
    await expect(one.toast).toHaveCount(0);
    await two.closeToast();
    return { one, two };
  };
  /** A tab that is looked at: what a hand does is done there. */
  const lookAt = (app: App): Promise<void> => app.page.bringToFront();
  const kept = (app: App) => app.page.getByRole('region', { name: 'Plans kept in this browser' }).getByRole('listitem');

  for (const first of ['earlier', 'later'] as const) {
    test(`what the ${first} tab kept is not written over; the other is told and can go on as a plan of its own`, async ({ page }) => {
      const { one, two } = await twoTabs(page);
      const [winner, other] = first === 'earlier' ? [one, two] : [two, one];
      await lookAt(winner);
      await nudge(winner);
      await winner.saved();
      const theirs = await winner.plan();
      await lookAt(other);
      await other.selectPart('Converter');
      await other.press('r');
      await expect(other.toast).toContainText('Another tab has changed this plan', { timeout: 2000 });
      await expect(other.saveState).toHaveText('Not saved: other tab');
      const mine = await other.plan();
      await other.click(other.toast.getByRole('button', { name: 'Keep mine as a plan of its own' }));
      await other.saved();
      expect((await other.plan()).parts).toEqual(mine.parts);
      await expect(other.undoButton).toHaveAccessibleName(/^Undo: /);
      await winner.page.reload();
      await winner.settled();
      await menu(other, 'Close this plan');
      await expect(kept(other)).toHaveCount(2);
      await other.click(
        kept(other)
          .getByRole('button', { name: /^Small plan(?!, second)/ })
          .first(),
      );
      await other.settled();
      expect(await other.plan()).toEqual(theirs);
    });
  }

  test('going on with what the other tab kept leaves mine in the list; after that this tab may save again', async ({ page }) => {
    const { one, two } = await twoTabs(page);
    await lookAt(one);
    await nudge(one);
    await one.saved();
    await lookAt(two);
    await two.selectPart('Converter');
    await two.press('r');
    await two.click(two.toast.getByRole('button', { name: 'Go on with the other tab’s' }));
    await two.saved();
    expect(await two.plan()).toEqual(await one.plan());
    await one.page.close();
    await nudge(two);
    await two.saved();
    await menu(two, 'Close this plan');
    await expect(kept(two)).toHaveText([/Small plan/, /Small plan, second tab/]);
  });

  test('reloaded without a choice, what was not saved is a plan of its own; closing the one tab leaves the plan to the other', async ({ page }) => {
    const { one, two } = await twoTabs(page);
    await lookAt(one);
    await nudge(one);
    await one.saved();
    const theirs = await one.plan();
    await lookAt(two);
    await two.selectPart('Converter');
    await two.press('r');
    await expect(two.toast).toContainText('Another tab');
    await two.page.reload();
    await two.settled();
    expect(await two.plan()).toEqual(theirs);
    await two.closeToast();
    await one.page.close();
    await nudge(two);
    await two.saved();
    await expect(two.toast).toHaveCount(0);
    await menu(two, 'Close this plan');
    await expect(kept(two)).toHaveCount(2);
  });
});

/** Kills the renderer of a page, as a crash or a lack of memory does. */
async function die(page: Page): Promise<void> {
  const died = page.waitForEvent('crash');
  const devtools = await page.context().newCDPSession(page);
  // The answer to this command never comes.
  devtools.send('Page.crash').catch(() => undefined);
  await died;
}
