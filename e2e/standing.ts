import { test as base, type Page } from '@playwright/test';
import { App } from './app.ts';

/** The page that stands in this worker. */
let standing: Page | null = null;

/** How things are shown, as this browser remembers it. */
const lookOf = (page: Page): Promise<string | null> => page.evaluate(() => localStorage.getItem('dashloom.view'));

/** Closes the open plan, as a person would; false when what a test left behind does not allow it. */
async function cleared(page: Page): Promise<boolean> {
  const app = new App(page);
  try {
    for (let layers = 0; layers < 3; layers++) await page.keyboard.press('Escape');
    // What was chosen of looks stays chosen: the next test wants a first visit.
    if ((await lookOf(page)) !== null) return false;
    await page.getByRole('button', { name: 'Plans and files' }).click({ timeout: 2000 });
    await page.getByRole('button', { name: 'Close this plan' }).click({ timeout: 2000 });
    await app.atStart();
    return true;
  } catch {
    return false;
  }
}

/**
 * A test whose page stands open from one test to the next: opening the app anew costs more than most of what is done
 * in it. For tests that start with `openDemo` or `openPlan` and need no reload, no tab of their own, no other window size.
 */
export const test = base.extend({
  page: async ({ browser, baseURL }, use) => {
    if (standing && !(await cleared(standing))) {
      await standing.context().close();
      standing = null;
    }
    if (!standing) {
      standing = await (await browser.newContext()).newPage();
      await standing.goto(baseURL ?? '/');
      await new App(standing).atStart();
    }
    await use(standing);
  },
});
