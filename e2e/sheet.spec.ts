import { readFileSync } from 'node:fs';
import { type Download, expect, type Page } from '@playwright/test';
import { CAUTIONS } from '../src/trade/cautions.ts';
import { App } from './app.ts';
import { report } from './figures.ts';
import { A4, LETTER, type Paper, printed, sides } from './paper.ts';
import { test } from './standing.ts';

const upright = ({ size }: Paper): boolean => size[0] < size[1];
/** What a fitter still likes to carry on a clipboard. */
const MOST_PAGES = 13;

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

test('opens with the drawing, prints from its button, hands out its lists as files, and goes back by Escape', async ({ page }) => {
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

  // One row for each own wire, each own part counted once.
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

  await app.press('Escape');
  await expect(app.canvas).toBeVisible();
});

test('on paper, as the report command writes it: all that a fitter looks for, on A4 and when chosen on Letter, page n of m on each page', async ({ page }) => {
  // The report command, and two papers printed and read.
  test.slow();
  const app = await openSheet(page);
  // What takes its time comes last; then all of it, drawing and strip too, is what is written without a browser.
  const { out, err } = report('public/plans/mobile-library-van.plan.json', '--sheet');
  expect(err).toBe('');
  await expect.poll(async () => (await frameHtml(page)) === out, { message: 'the same on screen', timeout: 20_000 }).toBe(true);

  await app.type(page.getByLabel('Planned by'), 'A. Weaver');
  await expect.poll(() => frameHtml(page)).toContain('A. Weaver');
  const own = Object.values((await planOf(page)).wires).filter((w) => w.owner === 'build').length;
  const pages = await printed(page, await frameHtml(page));
  const all = pages.map((p) => p.text).join(' ');
  expect(pages.length).toBeLessThanOrEqual(MOST_PAGES);
  for (const [i, p] of pages.entries()) {
    expect(sides(p), `page ${i + 1}`).toEqual(A4);
    expect(p.text).toContain(`page ${i + 1} of ${pages.length}`);
    // A drawing or table that does not fit would leave a heading alone on a page.
    expect(p.text.length, `page ${i + 1}`).toBeGreaterThan(200);
  }
  // The drawing lies in pieces, upright like the rest.
  expect(pages.every(upright)).toBe(true);
  for (const n of [1, 2, 3]) expect(pages[n]?.text).toContain(`Drawing, piece ${n} of 3`);
  for (const text of ['Mobile library van', 'A. Weaver', 'Check against the vehicle before work', 'Where everything is', 'pull the fuse of this build first'])
    expect(pages[0]?.text).toContain(text);
  for (const caution of CAUTIONS) expect(words(all)).toContain(words(caution.text));
  expect(own).toBeGreaterThan(40);
  for (let n = 1; n <= own; n++) expect(all, `wire W${n}`).toMatch(new RegExp(`\\bW${n}\\b`));
  expect(all).toMatch(/Blade fuse 3 A \(violet\)/);
  expect(all).not.toMatch(/\bNaN\b|undefined|\bsafe\b(?! to touch)/);
  // A long list has its head on its next page too.
  const list = pages.filter((p) => /From.*how it is joined there\s+Size\s+Colour\s+Length/.test(p.text));
  expect(list.length).toBeGreaterThan(1);
  for (const heading of [
    'Cautions',
    'Wire list',
    'Taps: the vehicle',
    'Fuses and relays',
    'Key positions at a glance',
    'One turn of the key',
    '40-pin header of',
    'Parts',
    'Wire to buy',
    'Trying it, in fitting order',
    'Checklist: what no drawing shows',
    'Open findings',
    'What could not be told',
    'What was not looked at',
    'To take it out again',
    'cut out and keep in the vehicle',
  ])
    expect(all).toContain(heading);

  await app.click(page.getByText('Letter', { exact: true }));
  await expect.poll(() => frameHtml(page)).toMatch(/letter/i);
  const onLetter = await printed(page, await frameHtml(page));
  expect(onLetter.length).toBeLessThanOrEqual(MOST_PAGES);
  for (const [i, p] of onLetter.entries()) {
    expect(sides(p)).toEqual(LETTER);
    expect(p.text.length, `page ${i + 1}`).toBeGreaterThan(200);
  }
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
