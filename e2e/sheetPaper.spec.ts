import { spawnSync } from 'node:child_process';
import { expect, type Page, test } from '@playwright/test';
import { A4, LETTER, type Paper, printed, sides } from './paper.ts';

function sheetOf(...options: string[]): string {
  const made = spawnSync(process.execPath, ['src/report/launch.mjs', 'report', 'public/plans/mobile-library-van.plan.json', '--sheet', ...options], {
    encoding: 'utf8',
    maxBuffer: 50_000_000,
  });
  expect(made.stderr).toBe('');
  return made.stdout;
}

// One worker takes them all: the same sheet on paper serves three.
test.describe.configure({ mode: 'default' });

let onA4: readonly Paper[] | null = null;
/** The sheet on A4, printed once. */
async function a4(page: Page): Promise<readonly Paper[]> {
  onA4 ??= await printed(page, sheetOf());
  return onA4;
}

const upright = ({ size }: Paper): boolean => size[0] < size[1];
/** What a fitter still likes to carry on a clipboard. */
const MOST_PAGES = 13;

test('prints every page on A4 with its number, the drawing in pieces upright like the rest', async ({ page }) => {
  const pages = await a4(page);
  expect(pages.length).toBeLessThanOrEqual(MOST_PAGES);
  for (const [i, p] of pages.entries()) {
    expect(sides(p)).toEqual(A4);
    expect(p.text).toContain(`page ${i + 1} of ${pages.length}`);
    // A drawing or table that does not fit would leave a heading alone on a page.
    expect(p.text.length, `page ${i + 1}`).toBeGreaterThan(200);
  }
  expect(pages.every(upright)).toBe(true);
  const [first] = pages;
  for (const text of ['Check against the vehicle before work', 'Where everything is', 'pull the fuse of this build first']) expect(first?.text).toContain(text);
  for (const n of [1, 2, 3]) expect(pages[n]?.text).toContain(`Drawing, piece ${n} of 3`);
});

test('repeats the head of a long list on its next page', async ({ page }) => {
  const pages = await a4(page);
  const list = pages.filter((p) => /From.*how it is joined there\s+Size\s+Colour\s+Length/.test(p.text));
  expect(list.length).toBeGreaterThan(1);
});

test('has whatever a fitter looks for, each under its heading', async ({ page }) => {
  const all = (await a4(page)).map((p) => p.text).join(' ');
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
});

test('prints on Letter as well', async ({ page }) => {
  const pages = await printed(page, sheetOf('--letter'));
  expect(pages.length).toBeLessThanOrEqual(MOST_PAGES);
  for (const [i, p] of pages.entries()) {
    expect(sides(p)).toEqual(LETTER);
    expect(p.text.length, `page ${i + 1}`).toBeGreaterThan(200);
  }
});
