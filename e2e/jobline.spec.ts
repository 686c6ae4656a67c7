import { expect, type Locator } from '@playwright/test';
import { App } from './app.ts';
import { barriers } from './axe.ts';
import { test } from './standing.ts';

const stageButton = (line: Locator, name: string): Locator => line.getByRole('button', { name: new RegExp(`^${name}\\b`) });
/** The number beside a stage. */
const openAt = async (line: Locator, name: string): Promise<number> => Number(/\d+/.exec((await stageButton(line, name).textContent()) ?? '')?.[0]);

const LINE_AND_LIST = { within: ['.job-line', '.job'] };

test('the job line tells what is open, ticks wires as fitted, and one undo takes a tick back', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  const line = page.getByRole('navigation', { name: 'Job line' });
  await expect(line.getByRole('button')).toHaveCount(7);
  await expect(stageButton(line, 'Draw')).toHaveAttribute('aria-current', 'step');

  await stageButton(line, 'Wire').click();
  const job = page.getByRole('region', { name: 'Job: Wire' });
  const box = job.getByRole('checkbox').first();
  const open = () => openAt(line, 'Wire');
  await expect.poll(open).toBeGreaterThan(0);
  const before = await open();
  await box.check();
  await expect(box).toBeChecked();
  await expect.poll(open).toBe(before - 1);
  await app.undoButton.click();
  await expect.poll(open).toBe(before);

  await stageButton(line, 'Software').click();
  await expect(page.getByRole('region', { name: 'Job: Software' }).getByRole('checkbox').first()).toBeVisible();
  expect(await barriers(page, 'job', LINE_AND_LIST)).toEqual([]);
});

test('a zone is ticked at once; what is fitted keeps its size when the plan changes round it', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  const line = page.getByRole('navigation', { name: 'Job line' });
  await stageButton(line, 'Wire').click();
  const zone = page.getByRole('region', { name: 'Behind the radio', exact: true });
  const boxes = await zone.getByRole('checkbox').count();
  expect(boxes).toBeGreaterThan(5);
  const before = await openAt(line, 'Wire');
  await zone.getByRole('button', { name: /^Tick all/ }).click();
  await expect(zone.getByRole('checkbox', { checked: true })).toHaveCount(boxes);
  await expect.poll(() => openAt(line, 'Wire')).toBe(before - boxes);
  const { id } = await app.wireBetween('Supply fuse.2', 'Hold relay.30');
  const wire = (await app.plan()).wires[id];
  expect(wire).toMatchObject({ fitted: true, areaMm2: expect.any(Number), colour: expect.any(String), number: expect.any(Number) });
});

test('by keyboard alone: choose a stage, tick a line, show it on the plan', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  const line = page.getByRole('navigation', { name: 'Job line' });
  await stageButton(line, 'Find').focus();
  await page.keyboard.press('Enter');
  const job = page.getByRole('region', { name: 'Job: Find' });
  const read = job.getByRole('checkbox', { name: /Constant 30.*read its rating/ });
  await expect(read).not.toBeChecked();
  await read.focus();
  await page.keyboard.press('Space');
  await expect(read).toBeChecked();
  await expect.poll(() => openAt(line, 'Find')).toBe(0);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  // The list stays in view beside what is selected.
  await expect(page.getByRole('tab', { name: 'Selected' })).toBeVisible();
  await expect(job).toBeVisible();
});

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });

  test('a button opens the stages and their list; every target is as tall as a finger', async ({ page }) => {
    const app = new App(page);
    await app.openStart();
    await page.getByRole('button', { name: 'Try the demo' }).tap();
    await expect(page.getByRole('button', { name: /No hazard, no fault found/ })).toBeVisible({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Job', exact: true }).tap();
    const drawer = page.getByRole('dialog', { name: 'Job' });
    const line = drawer.getByRole('navigation', { name: 'Job line' });
    await stageButton(line, 'Buy').tap();
    const rows = drawer.getByRole('checkbox');
    await rows.nth(2).check();
    await expect(rows.nth(2)).toBeChecked();
    const low = await drawer
      .locator('.job-line button, .job-row label, .job-row button')
      .evaluateAll((all) => all.map((el) => el.getBoundingClientRect().height).filter((h) => h < 44));
    expect(low).toEqual([]);
    expect(await barriers(page, 'job', LINE_AND_LIST)).toEqual([]);
    await stageButton(line, 'Wire').tap();
    await drawer.getByRole('button', { name: /^Show/ }).first().tap();
    await expect(drawer).toHaveCount(0);
  });
});
