import { readFileSync } from 'node:fs';
import { type Download, expect, type Page } from '@playwright/test';
import { CAUTIONS } from '../src/trade/cautions.ts';
import { App } from './app.ts';
import { A4, LETTER, printed, sides } from './paper.ts';
import { test } from './standing.ts';

async function openSheet(page: Page): Promise<App> {
  const app = new App(page);
  await app.openDemo();
  await app.click(page.getByRole('button', { name: 'Wiring sheet' }));
  await expect(page.getByRole('heading', { name: 'Wiring sheet', level: 1 })).toBeVisible();
  return app;
}

const frame = (page: Page) => page.getByTitle('Wiring sheet as it will print');

/** What is in the frame, as the print command would get it. */
async function frameHtml(page: Page): Promise<string> {
  const html = await frame(page).getAttribute('srcdoc');
  if (html === null) throw new Error('the frame is empty');
  return html;
}

test('opens with the drawing, prints from its button, and goes back by Escape', async ({ page }) => {
  const app = await openSheet(page);
  const sheet = page.frameLocator('iframe');
  await expect(sheet.getByRole('heading', { name: 'Mobile library van', level: 1 })).toBeVisible();
  await expect(sheet.locator('svg').first()).toBeVisible();
  // The sheet is written anew when a figure that took longer comes in, and with it the window that prints.
  await expect(async () => {
    await frame(page).evaluate((el: HTMLIFrameElement) => {
      const inside = el.contentWindow as Window;
      inside.print = () => Reflect.set(window, '__printed', true);
    });
    await app.click(page.getByRole('button', { name: /^Print/ }));
    expect(await page.evaluate(() => Reflect.get(window, '__printed'))).toBe(true);
  }).toPass();
  await app.press('Escape');
  await expect(app.canvas).toBeVisible();
});

test('on A4: title, cautions, every wire number, fuses, and page n of m on each page', async ({ page }) => {
  const app = await openSheet(page);
  await app.type(page.getByLabel('Planned by'), 'A. Weaver');
  await expect.poll(() => frameHtml(page)).toContain('A. Weaver');
  const own = Object.values((await planOf(page)).wires).filter((w) => w.owner === 'build').length;
  const pages = await printed(page, await frameHtml(page));
  const all = pages.map((p) => p.text).join('\n');
  for (const [i, p] of pages.entries()) {
    expect(sides(p), `page ${i + 1}`).toEqual(A4);
    expect(p.text).toContain(`page ${i + 1} of ${pages.length}`);
  }
  expect(pages[0]?.text).toContain('Mobile library van');
  expect(pages[0]?.text).toContain('A. Weaver');
  for (const caution of CAUTIONS) expect(words(all)).toContain(words(caution.text));
  expect(own).toBeGreaterThan(40);
  for (let n = 1; n <= own; n++) expect(all, `wire W${n}`).toMatch(new RegExp(`\\bW${n}\\b`));
  expect(all).toMatch(/Blade fuse 3 A \(violet\)/);
  expect(all).not.toMatch(/\bNaN\b|undefined|\bsafe\b(?! to touch)/);
});

test('on Letter, when that is chosen', async ({ page }) => {
  const app = await openSheet(page);
  await app.click(page.getByText('Letter', { exact: true }));
  await expect.poll(() => frameHtml(page)).toMatch(/letter/i);
  for (const p of await printed(page, await frameHtml(page))) expect(sides(p)).toEqual(LETTER);
});

test('the lists as files: one row for each own wire, each own part counted once', async ({ page }) => {
  const app = await openSheet(page);
  const plan = await planOf(page);
  const download = async (name: string): Promise<string[][]> => {
    const coming = page.waitForEvent('download');
    await app.click(page.getByRole('button', { name }));
    return readCsv(await coming);
  };
  const wires = await download('Wire list, CSV');
  const own = Object.values(plan.wires).filter((w) => w.owner === 'build');
  expect(wires).toHaveLength(own.length + 1);
  const numbers = wires.slice(1).map((row) => row[wires[0]?.indexOf('number') ?? -1]);
  expect(new Set(numbers).size).toBe(own.length);
  expect(numbers).not.toContain('');

  const parts = await download('Parts list, CSV');
  const items = parts.slice(1).flatMap((row) => (row[parts[0]?.indexOf('items') ?? -1] ?? '').split(/[\s,;]+/).filter((t) => t !== ''));
  const mine = Object.values(plan.parts).filter((p) => p.owner === 'build');
  expect(new Set(items).size).toBe(mine.length);
  expect(items).toHaveLength(mine.length);
});

/** The demo's plan; the sheet covers the drawing and its hook, so it is read from its file. */
async function planOf(page: Page): Promise<{ wires: Record<string, { owner: string }>; parts: Record<string, { owner: string }> }> {
  return (await page.request.get('./plans/mobile-library-van.plan.json')).json();
}

/** Rows of a file to RFC 4180; every row must have as many fields as the head. */
async function readCsv(download: Download): Promise<string[][]> {
  const text = readFileSync(await download.path(), 'utf8').replace(/^\ufeff/, '');
  const rows: string[][] = [[]];
  for (const [, quoted, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/g)) {
    rows.at(-1)?.push(quoted?.replaceAll('""', '"') ?? plain ?? '');
    if (end === '\r\n') rows.push([]);
  }
  const filled = rows.filter((r) => r.length > 1);
  for (const row of filled) expect(row).toHaveLength(filled[0]?.length ?? 0);
  return filled;
}

/** Letters and digits alone: lines break and dashes join differently on paper. */
function words(text: string): string {
  return text.replace(/[^\p{L}\p{N}]+/gu, '');
}
