/**
 * One row of the bench. A bench file `test/bench/<name>.bench.ts` exports `run(): Row[] | Promise<Row[]>` and builds
 * its rows with `measure` (times, ms) or `ratio` (a figure that must be at least its aim).
 */
export interface Row {
  readonly name: string;
  readonly unit: string;
  /** `at most`: smaller is better (times, memory). `at least`: larger is better (ratios). */
  readonly want: 'at most' | 'at least';
  /** null = only for comparison. */
  readonly aim: number | null;
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

/** The same in time of the processor, ms: what a busy machine gives to others does not count. */
export async function measureCpu(name: string, aimMs: number, job: () => unknown, rounds = 5): Promise<Row> {
  const once = async (): Promise<number> => {
    const before = process.cpuUsage();
    await job();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  };
  const cold = await once();
  const times: number[] = [];
  for (let i = 0; i < rounds; i++) times.push(await once());
  times.sort((a, b) => a - b);
  return { name, unit: 'ms', want: 'at most', aim: aimMs, median: quantile(times, 0.5), p95: quantile(times, 0.95), cold };
}

/** Looked at every so many steps only: asking costs more than a step. */
const LOOK_EACH = 50;

/**
 * The most memory that one job takes, MB: the heap in use with the typed arrays outside it, garbage included as a worker
 * would hold it. Everything else that this process holds counts too, so it is an upper bound.
 * @param job calls `look` as it goes on
 */
export function memory(name: string, aimMb: number, job: (look: () => void) => unknown): Row {
  const inUse = (): number => {
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return (heapUsed + arrayBuffers) / 1e6;
  };
  globalThis.gc?.();
  const before = inUse();
  let most = before;
  let steps = 0;
  job(() => {
    if (steps++ % LOOK_EACH === 0) most = Math.max(most, inUse());
  });
  return { name, unit: 'MB', want: 'at most', aim: aimMb, median: Math.max(most, inUse()), p95: most, cold: before };
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
