import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { type Page, test } from '@playwright/test';
import type { Row } from '../measure.ts';
import { costs, work } from './trace.ts';

/**
 * The bench of the page with 300 parts and 500 wires while a worker analyses: frames while a part with 20 wires is
 * dragged, while panning and zooming; what a person waits for at the start and end of a drag and for the sharp drawing;
 * memory after 500 edits. Cost = processor time of everything that the main thread does. `npm run bench frames` prints
 * the rows.
 */
const AIM = { costMs: 10, gapMs: 17.5, waitMs: 100, heapMb: 150 } as const;
const FRAMES = 180;
const ROUNDS = 9;
const EDITS = 500;
const rows: Row[] = [];

function row(name: string, values: readonly number[], aim: number | null, unit = 'ms', by: 'median' | 'p95' = 'p95'): void {
  rows.push({ name, unit, want: 'at most', aim, by, median: share(values, 0.5), p95: share(values, 0.95), cold: values[0] ?? Number.NaN });
}

function share(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))] ?? Number.NaN;
}

async function open(page: Page): Promise<void> {
  test.setTimeout(300_000);
  await page.goto('/?parts=300&wires=500');
  await page.waitForFunction(() => window.__surface && window.frames_?.isSettled(), null, { timeout: 60_000 });
  // The page lays its wires with care in its pauses.
  await page.waitForTimeout(4000);
}

for (const [label, zoom] of [
  ['near', 1],
  ['far', 0.35],
] as const) {
  test(`frames, ${label}`, async ({ page, context }) => {
    await open(page);
    await page.evaluate((z) => window.frames_?.look(z), zoom);
    await page.waitForTimeout(600);
    const cdp = await context.newCDPSession(page);
    await page.evaluate(() => window.frames_?.analyse(true));

    // For comparison: where plain work of the same size gets no even frames either, the machine is busy, not the page.
    const plain = (await page.evaluate((n) => window.frames_?.plain(n), FRAMES)) ?? [];
    row(`${label}, 8 ms of plain work: frame to frame`, plain, null);
    for (const what of ['drag', 'pan', 'zoom'] as const) {
      let gaps: number[] = [];
      if (what === 'drag') await page.evaluate(() => window.frames_?.take());
      const cost = await costs(cdp, async () => {
        gaps = (await page.evaluate(([w, n]) => window.frames_?.[w](n), [what, FRAMES] as const)) ?? [];
      });
      if (what === 'drag') await page.evaluate(() => window.frames_?.drop());
      const title = `${label}, ${what}${what === 'drag' ? ' with 20 wires' : ''}`;
      row(`${title}: main thread a frame`, cost.slice(2, -2), AIM.costMs);
      row(`${title}: frame to frame`, gaps.slice(2), AIM.gapMs);
      await page.waitForTimeout(1500);
    }

    // With the processor to itself: what is waited for is the page's own work.
    await page.evaluate(() => window.frames_?.analyse(false));
    const waits = { take: [] as number[], drop: [] as number[], redraw: [] as number[] };
    const works = { take: [] as number[], drop: [] as number[], redraw: [] as number[] };
    for (let i = 0; i < ROUNDS; i++) {
      for (const what of ['take', 'drop', 'redraw'] as const) {
        works[what].push(
          await work(cdp, async () => {
            waits[what].push((await page.evaluate((w) => window.frames_?.[w](), what)) ?? Number.NaN);
          }),
        );
      }
      await page.waitForFunction(() => window.frames_?.isSettled());
      await page.waitForTimeout(1000);
    }
    for (const [what, title] of [
      ['take', 'drag start'],
      ['drop', 'drop'],
      ['redraw', 'sharp redraw'],
    ] as const) {
      row(`${label}, ${title}: main thread`, works[what], AIM.waitMs);
      row(`${label}, ${title}: until drawn, two frames`, waits[what], AIM.waitMs, 'ms', 'median');
    }
  });
}

test('memory', async ({ page, context }) => {
  await open(page);
  const cdp = await context.newCDPSession(page);
  const heap = async (): Promise<number> => {
    await cdp.send('HeapProfiler.collectGarbage');
    return (await cdp.send('Runtime.getHeapUsage')).usedSize / 1e6;
  };
  const before = await heap();
  await page.evaluate((n) => window.frames_?.edit(n), EDITS);
  await page.waitForFunction(() => window.frames_?.isSettled(), null, { timeout: 60_000 });
  await page.waitForTimeout(3000);
  // The first figure is the heap before the edits.
  const after = await heap();
  rows.push({
    name: `heap of the page after ${EDITS} edits (cold: before)`,
    unit: 'MB',
    want: 'at most',
    aim: AIM.heapMb,
    median: after,
    p95: after,
    cold: before,
  });
});

test.afterAll(() => {
  const out = process.env.BENCH_ROWS;
  if (out) {
    mkdirSync(dirname(out), { recursive: true });
    writeFileSync(out, JSON.stringify(rows));
  } else console.table(rows);
});
