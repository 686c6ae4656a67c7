import { readFileSync } from 'node:fs';
import { computeResults } from '../../src/advise/index.ts';
import { readPlan } from '../../src/codec/index.ts';
import { sheetHtml, wireListCsv } from '../../src/sheet/index.ts';
import { measure, type Row } from './measure.ts';

/** The wiring sheet of the demo, its results at hand. */
export async function run(): Promise<Row[]> {
  const read = readPlan(readFileSync('public/plans/mobile-library-van.plan.json', 'utf8'));
  if (!read.ok) throw new Error('the demo cannot be read');
  const results = computeResults(read.plan);
  return [
    await measure('wiring sheet of the demo', 300, () => sheetHtml(results, { paper: 'A4', date: '2025-03-04' })),
    await measure('wire list of the demo, CSV', 10, () => wireListCsv(results)),
  ];
}
