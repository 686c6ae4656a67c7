import { test as base, type Page } from '@playwright/test';
import { App } from './app.ts';

/** The pages that stand in this worker: one with a mouse, one with fingers, one with fingers in a phone's browser. */
const standing = new Map<string, Page>();

/** How things are shown, as this browser remembers it. */
const lookOf = (page: Page): Promise<string | null> => page.evaluate(() => localStorage.getItem('dashloom.view'));

/** Closes the open plan, as a person would; false when what a test left behind does not allow it. */
async function cleared(page: Page): Promise<boolean> {
  const app = new App(page);
  for (let layers = 0; layers < 3; layers++) await page.keyboard.press('Escape');
  // What was chosen of looks stays chosen: the next test wants a first visit.
  if ((await lookOf(page)) !== null) return false;
  if (await app.startTitle.isVisible()) return true;
  const menu = page.getByRole('button', { name: 'Plans and files' });
  if (!(await menu.isVisible())) return false;
  try {
    await menu.click({ timeout: 2000 });
    await page.getByRole('button', { name: 'Close this plan' }).click({ timeout: 2000 });
    await app.atStart();
    return true;
  } catch {
    return false;
  }
}

/** Leaves the app and takes away all that it has kept: the next visit of this page is that of another browser. */
export async function emptied(page: Page): Promise<void> {
  await page.goto('./icon.svg');
  // The app writes its last edits as it is left. Deleting in the page waits for that; the browser's own clearing does not.
  await page.evaluate(async () => {
    for (const { name } of await indexedDB.databases())
      await new Promise((done, failed) => {
        const deletion = indexedDB.deleteDatabase(name ?? '');
        deletion.onsuccess = done;
        deletion.onerror = failed;
      });
  });
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Storage.clearDataForOrigin', { origin: new URL(page.url()).origin, storageTypes: 'all' });
  await devtools.detach();
}

interface Asked {
  /** The page has not opened the app yet, and its browser keeps nothing: for tests that look at what is kept. */
  readonly empty: boolean;
}

/** Makes a page that has stood through another test one that the next can start with; false when it is past mending. */
async function readied(page: Page, empty: boolean): Promise<boolean> {
  try {
    if (!empty && (await cleared(page))) return true;
    await emptied(page);
    if (!empty) await new App(page).openStart();
    return true;
  } catch {
    await page.context().close();
    return false;
  }
}

/**
 * A test whose page stands open from one test to the next: opening the app anew costs more than most of what is done
 * in it. For all tests that put nothing under the page before it loads and need no browser of their own. Further tabs
 * (`page.context().newPage()`) are closed, window size, media and routes put back; what else a test has left behind is
 * noticed, and the page is emptied. A failed test ends the worker and its pages with it.
 */
export const test = base.extend<Asked>({
  empty: [false, { option: true }],
  page: async ({ browser, viewport, hasTouch, isMobile, empty }, use) => {
    const kind = `${hasTouch} ${isMobile}`;
    let page = standing.get(kind);
    if (viewport) await page?.setViewportSize(viewport).catch(() => undefined);
    if (!page || !(await readied(page, empty))) {
      page = await (await browser.newContext()).newPage();
      standing.set(kind, page);
      if (!empty) await new App(page).openStart();
    }
    await use(page);
    for (const tab of page.context().pages()) if (tab !== page) await tab.close();
    if (page.isClosed()) return;
    await page.unrouteAll();
    await page.emulateMedia({ forcedColors: null, reducedMotion: 'reduce' });
  },
});
