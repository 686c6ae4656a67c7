import { spawnSync } from 'node:child_process';
import { expect, test } from '@playwright/test';
import { A4, LETTER, type Paper, printed, sides } from './paper.ts';

function sheetOf(...options: string[]): string {
  const made = spawnSync(process.execPath, ['src/report/launch.mjs', 'report', 'public/plans/mobile-library-van.plan.json', '--sheet', ...options], {
    encoding: 'utf8',
    maxBuffer: 50_000_000,
  });
  expect(made.stderr).toBe('');
  return made.stdout;
}

const upright = ({ size }: Paper): boolean => size[0] < size[1];
/** Headings are "Drawing" and "Drawing, piece n"; the word stands nowhere else with a capital. */
const showsDrawing = (p: Paper): boolean => p.text.includes('Drawing');

test('prints every page on A4 with its number, the drawing and the wire list on pages laid on their side', async ({ page }) => {
  const pages = await printed(page, sheetOf());
  for (const [i, p] of pages.entries()) {
    expect(sides(p)).toEqual(A4);
    expect(p.text).toContain(`page ${i + 1} of ${pages.length}`);
  }
  expect(upright(pages[0] as Paper)).toBe(true);
  expect(pages[0]?.text).toContain('Check against the vehicle before work');
  const drawing = pages.filter(showsDrawing);
  expect(drawing.length).toBeGreaterThan(0);
  expect(drawing.some(upright)).toBe(false);
  // A drawing that does not fit would leave its heading alone on a page.
  for (const p of drawing) expect(p.text.length).toBeGreaterThan(200);
});

test('repeats the head of a long list on its next page', async ({ page }) => {
  const pages = await printed(page, sheetOf());
  const list = pages.filter((p) => /Insulation\s+Way\s+Length/.test(p.text));
  expect(list.length).toBeGreaterThan(1);
});

test('prints on Letter as well', async ({ page }) => {
  const pages = await printed(page, sheetOf('--letter'));
  for (const p of pages) expect(sides(p)).toEqual(LETTER);
  for (const p of pages.filter(showsDrawing)) expect(p.text.length).toBeGreaterThan(200);
});
