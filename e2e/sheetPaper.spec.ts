import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';

/** The wiring sheet as the browser puts it on paper, read back from its PDF. */
interface Paper {
  readonly text: string;
  /** Page size in points, as the paper lies. */
  readonly size: readonly [width: number, height: number];
}

function sheetOf(...options: string[]): string {
  const made = spawnSync(process.execPath, ['src/report/launch.mjs', 'report', 'public/plans/mobile-library-van.plan.json', '--sheet', ...options], {
    encoding: 'utf8',
    maxBuffer: 50_000_000,
  });
  expect(made.stderr).toBe('');
  return made.stdout;
}

const READER = 'node_modules/pdfjs-dist/build/';

/** Reads a PDF with a reader that runs in the page itself. */
async function read(page: Page, pdf: Buffer): Promise<Paper[]> {
  await page.route('**/reader/**', (route) =>
    route.request().url().endsWith('.mjs')
      ? route.fulfill({ contentType: 'text/javascript', body: readFileSync(READER + new URL(route.request().url()).pathname.split('/').pop()) })
      : route.fulfill({ contentType: 'text/html', body: '<!DOCTYPE html><title>reader</title>' }),
  );
  await page.goto('/reader/');
  return page.evaluate(async (data) => {
    const address = '/reader/pdf.mjs';
    const { getDocument, GlobalWorkerOptions } = await import(address);
    GlobalWorkerOptions.workerSrc = '/reader/pdf.worker.mjs';
    const file = await getDocument({ data: Uint8Array.from(atob(data), (c) => c.charCodeAt(0)) }).promise;
    const pages = [];
    for (let n = 1; n <= file.numPages; n++) {
      const sheet = await file.getPage(n);
      const items: { str: string }[] = (await sheet.getTextContent()).items;
      const { width, height } = sheet.getViewport({ scale: 1 });
      pages.push({ text: items.map((i) => i.str).join(' '), size: [width, height] as const });
    }
    return pages;
  }, pdf.toString('base64'));
}

async function printed(page: Page, html: string): Promise<Paper[]> {
  await page.setContent(html);
  return read(page, await page.pdf({ preferCSSPageSize: true, printBackground: false }));
}

const upright = ({ size }: Paper): boolean => size[0] < size[1];
/** Headings are "Drawing" and "Drawing, piece n"; the word stands nowhere else with a capital. */
const showsDrawing = (p: Paper): boolean => p.text.includes('Drawing');
const sides = ({ size }: Paper): number[] => [...size].sort((a, b) => a - b).map(Math.round);

test('prints every page on A4 with its number, the drawing and the wire list on pages laid on their side', async ({ page }) => {
  const pages = await printed(page, sheetOf());
  // A4 is 210 x 297 mm: 595 x 842 points of 1/72 inch (ISO 216).
  for (const [i, p] of pages.entries()) {
    expect(sides(p)).toEqual([595, 842]);
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
  // 8.5 x 11 inch.
  for (const p of pages) expect(sides(p)).toEqual([612, 792]);
  for (const p of pages.filter(showsDrawing)) expect(p.text.length).toBeGreaterThan(200);
});
