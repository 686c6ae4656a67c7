import { expect, type Page } from '@playwright/test';
import { App } from './app.ts';
import { test } from './standing.ts';

const MOST_STEPS = 25;

test.use({ viewport: { width: 1440, height: 900 } });

const step = (page: Page) => page.locator('.guided-step');
const offer = (page: Page) => step(page).locator('.btn.main');

/** Waits until the guide belongs to the plan as it stands. */
async function steady(app: App, page: Page): Promise<void> {
  await app.settled();
  await expect(page.locator('.guided-step [aria-disabled="true"]')).toHaveCount(0, { timeout: 20_000 });
}

/** Takes what is offered with `press` until the leads are to be measured; hands back the titles of the steps gone through. */
async function walk(app: App, page: Page, press: () => Promise<void>): Promise<string[]> {
  const titles: string[] = [];
  for (let n = 0; n < MOST_STEPS; n++) {
    await steady(app, page);
    const title = (await step(page).getByRole('heading').textContent()) ?? '';
    if (/^Measure the leads/.test(title)) return titles;
    if (titles.at(-1) !== title) titles.push(title);
    const before = await app.plan();
    await press();
    await expect.poll(async () => (await app.plan()) !== before && JSON.stringify(await app.plan()) !== JSON.stringify(before)).toBe(true);
  }
  throw new Error(`still not drawn after ${MOST_STEPS} steps: ${titles.join(' · ')}`);
}

test('from nothing to the printed sheet by keyboard, by the guide’s offers alone', async ({ page }) => {
  test.setTimeout(180_000);
  const app = new App(page);
  await app.planMine();
  await expect(page.getByRole('tab', { name: 'Guide' })).toHaveAttribute('aria-selected', 'true');
  await expect(page.locator('.guided-head')).toContainText('0 of 21');
  const titles = await walk(app, page, async () => {
    await offer(page).focus();
    await page.keyboard.press('Enter');
  });
  expect(titles.length).toBeGreaterThan(10);
  await expect(app.headline.getByRole('heading')).toHaveText('No hazard, no fault found');
  await expect(page.getByRole('status').filter({ hasText: /Step done: .* Next: Measure the leads/ })).toHaveCount(1);

  // A break opens the step again, undo closes it.
  await app.page
    .getByRole('list', { name: 'All steps' })
    .getByRole('button', { name: /Done: A constant feed/ })
    .click();
  await page.getByRole('button', { name: 'To the first open step' }).click();
  const done = await page.locator('.guided-head .note').textContent();
  await app.undoButton.click();
  await steady(app, page);
  await expect(page.locator('.guided-head .note')).not.toHaveText(done ?? '');
  await app.redoButton.click();
  await steady(app, page);
  await expect(page.locator('.guided-head .note')).toHaveText(done ?? '');

  // The last step leads to the sheet.
  await page
    .getByRole('list', { name: 'All steps' })
    .getByRole('button', { name: /Print the sheet/ })
    .click();
  await step(page).getByRole('button', { name: 'Open the wiring sheet' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Print/ })).toBeVisible();
});

test('what is not wished is not asked for, and the guide can be hidden, brought back and kept over a reload', async ({ page }) => {
  const app = new App(page);
  await app.planMine(async () => {
    for (const what of ['A camera', 'Sound through the radio']) await app.click(page.getByText(what, { exact: true }));
  });
  await expect(page.locator('.guided-head')).toContainText('0 of 19');
  await page.getByRole('button', { name: 'Hide the guide' }).click();
  await expect(page.getByRole('tab', { name: 'Guide' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Guide me' }).click();
  await expect(page.getByRole('tab', { name: 'Guide' })).toHaveAttribute('aria-selected', 'true');
  await offer(page).click();
  await steady(app, page);
  await app.saved();
  await page.reload();
  await expect(page.locator('.guided-head')).toContainText('2 of 19');
});

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true });

  test('the guide is one tap away, and its controls are large enough', async ({ page }) => {
    const app = new App(page);
    await app.openStart();
    await page.getByRole('button', { name: 'Plan mine' }).tap();
    await page.getByRole('button', { name: 'Make the plan' }).tap();
    const bar = page.getByRole('button', { name: /^Guide 0 of 21/ });
    await bar.tap();
    const drawer = page.getByRole('dialog', { name: 'Guide' });
    await expect(drawer.getByRole('heading', { name: /constant feed/ })).toBeVisible();
    for (const button of await drawer.getByRole('button').all())
      expect((await button.boundingBox())?.height ?? 0, (await button.textContent()) ?? '').toBeGreaterThanOrEqual(44);
    await offer(page).tap();
    await expect(drawer.getByRole('heading', { name: /ignition feed/i })).toBeVisible({ timeout: 20_000 });
    // What was added stands in the strip of the drawing above the guide.
    const edge = async () => (await drawer.boundingBox())?.y ?? 0;
    await expect.poll(async () => (await app.middle('feed-30')).y).toBeLessThan(await edge());
    expect((await app.middle('feed-30')).y).toBeGreaterThan((await app.canvasBox()).y);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });
});
