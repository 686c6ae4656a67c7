import { readFileSync } from 'node:fs';
import { expect, type Locator, type Page } from '@playwright/test';
import type { Plan } from '../src/plan/types.ts';
import { App } from './app.ts';
import { barriers, barriersInAllLooks } from './axe.ts';
import { test } from './standing.ts';

/** Headroom of the demo: its relay holds 90 s less 10 %, its computer needs 31 s. */
const AMPLE = /stopped \d+ s before power falls, at worst/i;
const FINDING = 'Power goes away before the computer has finished';

const strip = (page: Page): Locator => page.getByRole('region', { name: 'Key cycle', exact: true });
const moment = (page: Page, name: string): Locator => strip(page).getByRole('slider', { name, exact: true });

async function secondsOf(slider: Locator): Promise<number> {
  return Number(await slider.getAttribute('aria-valuenow'));
}

/** What the table says of a moment, by column title. */
async function rowOf(page: Page, what: string | RegExp): Promise<Readonly<Record<string, string>>> {
  const table = strip(page).getByRole('table');
  const titles = await table.getByRole('columnheader').allTextContents();
  const row = table
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: what }) })
    .first();
  const cells = [...(await row.getByRole('rowheader').allTextContents()), ...(await row.getByRole('cell').allTextContents())];
  return Object.fromEntries(titles.map((title, i) => [title, (cells[i] ?? '').replace(/\s+/g, ' ')]));
}

async function set(app: App, field: string, text: string): Promise<void> {
  await app.type(app.card.getByLabel(field, { exact: true }), text);
  await app.press('Enter');
  await app.settled();
}

async function opened(page: Page): Promise<App> {
  const app = new App(page);
  await app.openDemo();
  await expect(strip(page)).toContainText(AMPLE);
  await expect(moment(page, 'Key off')).toBeVisible();
  return app;
}

test('the strip tells the story of the demo: it lives through cranking and stops in time; it is folded to its headline and printed with the sheet', async ({
  page,
}) => {
  const app = await opened(page);
  await expect(strip(page)).toContainText(/keeps [45]\.\d\d V in cranking/);
  await expect(strip(page)).toContainText(/may stand \d+\sdays/);
  await app.click(strip(page).getByRole('button', { name: 'As a table' }));
  expect(await rowOf(page, 'Computer stopped')).toMatchObject({ Time: '91 s', Computer: 'stopped' });
  expect(await rowOf(page, /owest battery/)).toMatchObject({ Key: 'Start', Battery: /^[78]\./ });
  await app.click(strip(page).getByRole('button', { name: 'As a table' }));
  await expect(moment(page, 'Key off')).toBeVisible();

  await app.click(strip(page).getByRole('button', { name: 'Fold the key cycle' }));
  await expect(moment(page, 'Key off')).toHaveCount(0);
  await expect(strip(page)).toContainText(AMPLE);
  await app.click(page.getByRole('button', { name: 'Wiring sheet' }));
  const sheet = page.frameLocator('iframe');
  await expect(sheet.getByRole('heading', { name: 'One turn of the key' })).toBeVisible();
  await expect(sheet.getByText(AMPLE)).toBeVisible();
  await app.press('Escape');
});

test('key off is dragged by the pointer and moved by keys; door and result follow', async ({ page }) => {
  const app = await opened(page);
  const keyOff = moment(page, 'Key off');
  const door = moment(page, 'Door');
  expect(await secondsOf(keyOff)).toBe(60);
  const box = await keyOff.boundingBox();
  if (!box) throw new Error('no handle');
  await app.drag({ x: box.x + 9, y: box.y + box.height / 2 }, { x: box.x + 69, y: box.y + box.height / 2 });
  const dragged = await secondsOf(keyOff);
  expect(dragged).toBeGreaterThan(62);
  expect(await secondsOf(door)).toBeCloseTo(dragged + 10, 6);

  await keyOff.focus();
  await app.press('ArrowLeft');
  await app.press('PageUp');
  await app.press('Shift+ArrowRight');
  await expect(keyOff).toHaveAttribute('aria-valuenow', String(Math.round((dragged + 9.1) * 10) / 10));
  await expect(door).toHaveAttribute('aria-valuetext', /s, 10 s after key off$/);
  await app.press('Home');
  expect(await secondsOf(keyOff)).toBe(Number(await keyOff.getAttribute('aria-valuemin')));

  const at = await secondsOf(keyOff);
  await app.click(strip(page).getByRole('button', { name: 'As a table' }));
  await expect.poll(async () => Number.parseFloat((await rowOf(page, 'Held')).Time ?? '')).toBeCloseTo(at, 1);
});

test('a stop that takes too long turns the headline and brings the finding, and undo takes both back; a shorter hold follows at once, a deep dip throws the computer out', async ({
  page,
}) => {
  const app = await opened(page);
  const finding = app.findings('Fault').filter({ hasText: FINDING });
  await app.selectPart('computer');
  await set(app, 'Longest time to stop', '200 s');
  await expect(strip(page)).toContainText(/power falls \d+ s before it has stopped, at worst/);
  await expect(strip(page)).toContainText('power cut by K1 Hold relay');
  await app.openTab('Findings');
  await expect(finding).toBeVisible();

  await app.undo();
  await expect(strip(page)).toContainText(AMPLE);
  await expect(finding).toHaveCount(0);

  await app.selectPart('Hold relay');
  // 50 s less 10 % are 45 s, 14 s more than the 31 s that it needs.
  await set(app, 'Holds after the trigger has gone', '50 s');
  await expect(strip(page)).toContainText('stopped 14 s before power falls, at worst');
  await app.openTab('Vehicle');
  await app.answers.getByLabel('Cranking dip').selectOption('III');
  await expect(strip(page)).toContainText(/browns out at [5-9]/);
});

test('a smaller store carries the computer less far: change its capacitance and the seconds in hand follow', async ({ page }) => {
  const app = new App(page);
  const groomer = JSON.parse(readFileSync('public/plans/slope-groomer.plan.json', 'utf8')) as Plan;
  await app.openPlan(groomer);
  await expect(strip(page)).toContainText(AMPLE, { timeout: 20_000 });
  await app.selectPart('Supercapacitors');
  // Six cells of 25 F in series are 4 F: charged to 13.5 V they hold a quarter of what six of 100 F do.
  await set(app, 'One cell', '25 F');
  await expect(strip(page)).toContainText(/power falls \d+(\.\d)? s before it has stopped, at worst/, { timeout: 20_000 });
  await app.undo();
  await expect(strip(page)).toContainText(AMPLE, { timeout: 20_000 });
});

test('the events of the supply are played on demand: what each part gets, worst first, and the finding that speaks of it', async ({ page }) => {
  const app = await opened(page);
  await app.openTab('Supply');
  await app.click(app.answers.getByRole('button', { name: 'Play the events' }));
  await expect(app.answers.getByText('no figure goes beyond what its part is stated to stand')).toBeVisible();
  const table = app.answers.getByRole('table', { name: 'Peak of each part, worst first' });
  await expect(table.getByRole('row').nth(1)).toContainText(/C1 Bulk capacitor.*34\.\d\sV of\s50\sV.*70\s%/s);
  await app.answers.getByRole('combobox', { name: /^Event/ }).selectOption({ label: 'Load dump, clamped' });
  await expect(app.answers.getByRole('img', { name: /Load dump, clamped: supply .* at most 3[45]\.\d V/ })).toBeVisible();

  await app.selectPart('Bulk capacitor');
  await set(app, 'Rated voltage', '25 V');
  await app.openTab('Supply');
  await expect(app.answers.getByText('Of the plan before its last change.').first()).toBeVisible();
  await app.click(app.answers.getByRole('button', { name: 'Play them again' }));
  const row = table.getByRole('row').nth(1);
  await expect(row).toContainText('1.4 times what it stands');
  await app.click(row.getByRole('button', { name: 'Capacitor’s voltage rating too low' }));
  await expect(app.findings('Hazard').filter({ hasText: 'Capacitor’s voltage rating too low' })).toBeVisible();
});

test('door, key and buttons happen as chosen, and the plan’s own moments come back', async ({ page }) => {
  const app = await opened(page);
  const menu = page.getByRole('button', { name: 'What happens in this turn of the key' });
  await app.click(menu);
  await app.click(page.getByText('stays shut', { exact: true }));
  await expect(moment(page, 'Door')).toHaveCount(0);
  await app.click(page.getByText('The key comes back', { exact: true }));
  await app.click(page.getByRole('button', { name: 'Press Button: lamp' }));
  await app.press('Escape');
  await expect(moment(page, 'Key back')).toHaveAttribute('aria-valuetext', /after key off/);
  await expect(moment(page, 'Button: lamp')).toBeVisible();
  await app.click(menu);
  await app.click(page.getByRole('button', { name: 'Back to the plan’s own moments' }));
  await expect(moment(page, 'Door')).toBeVisible();
  await expect(moment(page, 'Key back')).toHaveCount(0);
});

test('the screen follows the moment looked at', async ({ page }) => {
  const app = await opened(page);
  await app.click(strip(page).getByText('Follow on the plan'));
  const next = strip(page).getByRole('button', { name: 'Next moment' });
  await app.click(next);
  await expect(page.getByRole('radio', { name: /^Parked/ })).toBeChecked();
  await app.click(next);
  await expect(page.getByRole('radio', { name: /^Accessory/ })).toBeChecked();
  const cursor = strip(page).getByRole('slider', { name: 'Moment looked at' });
  await expect(cursor).toHaveAttribute('aria-valuetext', /^2 s, Accessory, battery 12\.\d\sV/);
  await cursor.focus();
  for (let i = 0; i < 4; i++) await app.press('PageUp');
  await expect(page.getByRole('radio', { name: /^Running/ })).toBeChecked();
  // Less motion is asked for in these tests: nothing plays by itself.
  await expect(strip(page).getByRole('button', { name: 'Play' })).toHaveCount(0);
});

test('with motion allowed the strip plays to its end', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  const app = await opened(page);
  await app.click(strip(page).getByRole('button', { name: 'Play' }));
  const cursor = strip(page).getByRole('slider', { name: 'Moment looked at' });
  await expect.poll(() => secondsOf(cursor)).toBeGreaterThan(3);
  await app.click(strip(page).getByRole('button', { name: 'Pause' }));
  const at = await secondsOf(cursor);
  expect(at).toBeLessThan(180);
});

test('a spread is stopped half way, keeps what it has, and is done when let; strip, table, and what is worked out in time have no barrier in any colours', async ({
  page,
}) => {
  test.slow();
  const app = await opened(page);
  const parts = ['.strip', '.ledger'];
  await app.click(strip(page).getByRole('button', { name: 'Next moment' }));
  const found = await barriersInAllLooks(page, 'strip', parts);
  await app.click(strip(page).getByRole('button', { name: 'As a table' }));
  await app.openTab('Supply');
  // Faster than any hand: the stop is pressed as soon as something is known.
  await page.evaluate(() => {
    const watch = new MutationObserver(() => {
      const bar = document.querySelector<HTMLProgressElement>('.spread-progress progress');
      if (!bar || bar.value === 0 || bar.value >= bar.max) return;
      watch.disconnect();
      bar.closest('.row')?.querySelector('button')?.click();
    });
    watch.observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
  });
  await app.click(app.answers.getByRole('button', { name: 'Pick parts at random' }));
  await expect(app.answers.getByText(/^Stopped after \d+ of 400 picks/)).toBeVisible();
  await app.click(app.answers.getByRole('button', { name: 'Pick again' }));
  await expect(app.answers.getByText(/^Stopped after/)).toHaveCount(0);
  await expect(app.answers.getByRole('progressbar')).toHaveCount(0);
  await expect(app.answers.getByText('seed 1')).toBeVisible();
  const table = app.answers.getByRole('table', { name: 'Percentiles' });
  await expect(table.getByRole('rowheader', { name: /^5 V at A1 Computer, least/ })).toBeVisible();
  await expect(app.answers.getByRole('heading', { name: 'Standing for weeks' })).toBeVisible();

  await app.click(app.answers.getByRole('button', { name: 'Play the events' }));
  await app.answers.getByRole('combobox', { name: /^Event/ }).selectOption({ label: 'Jump start' });
  found.push(...(await barriersInAllLooks(page, 'table', parts)));
  expect(found).toEqual([]);
});

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });

  test('the key cycle is a sheet over the plan, its moments in reach of a finger', async ({ page }) => {
    const app = new App(page);
    await app.openStart();
    await page.getByRole('button', { name: 'Try the demo' }).tap();
    await expect(page.getByRole('button', { name: /No hazard, no fault found/ })).toBeVisible({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Key cycle', exact: true }).tap();
    await expect(strip(page)).toContainText(AMPLE);
    const keyOff = moment(page, 'Key off');
    const box = await keyOff.boundingBox();
    expect(box && Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    expect(await barriers(page, 'key cycle', { within: ['.strip'] })).toEqual([]);
    await page.getByRole('button', { name: 'Close key cycle' }).tap();
    await expect(strip(page)).toHaveCount(0);
  });
});
