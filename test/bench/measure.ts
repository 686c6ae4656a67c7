/**
 * One row of the bench. A bench file `test/bench/<name>.bench.ts` exports `run(): Row[] | Promise<Row[]>` and builds
 * its rows with `measure` (times, ms) or `ratio` (a figure that must be at least its aim).
 */
export interface Row {
  readonly name: string;
  readonly unit: string;
  /** `at most`: smaller is better (times). `at least`: larger is better (ratios). */
  readonly want: 'at most' | 'at least';
  readonly aim: number;
  /** Which figure the aim is for; absent = the median. */
  readonly by?: 'median' | 'p95';
  readonly median: number;
  readonly p95: number;
  /** The first call, before anything is warm. */
  readonly cold: number;
}

/**
 * Times one job: the first call alone (cold), then `rounds` calls warm.
 * @param aimMs what the warm median is meant to stay below, ms
 * @param job gets the round's number (0 = the cold call, below 0 = warming up); whatever it returns is dropped
 */
export async function measure(name: string, aimMs: number, job: (round: number) => unknown, rounds = 30, warmUps = 0): Promise<Row> {
  const cold = await time(job, 0);
  for (let i = 1; i <= warmUps; i++) await job(-i);
  const times: number[] = [];
  for (let i = 1; i <= rounds; i++) times.push(await time(job, i));
  times.sort((a, b) => a - b);
  return { name, unit: 'ms', want: 'at most', aim: aimMs, median: quantile(times, 0.5), p95: quantile(times, 0.95), cold };
}

/** A row that is a ratio (how many times faster one way is than another): at least `aim`. */
export function ratio(name: string, aim: number, value: number): Row {
  return { name, unit: 'x', want: 'at least', aim, median: value, p95: value, cold: value };
}

async function time(job: (round: number) => unknown, round: number): Promise<number> {
  const start = performance.now();
  await job(round);
  return performance.now() - start;
}

function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}
