import type { CDPSession } from '@playwright/test';

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  /** Processor time of the task, microseconds; less than `dur` when other programs had the processor. */
  readonly tdur?: number;
  readonly tid: number;
  readonly pid: number;
}

interface Traced {
  /** Beginnings of the frames, microseconds. */
  readonly frames: readonly number[];
  /** Tasks of the page's main thread that do not lie inside another one. */
  readonly tasks: readonly TraceEvent[];
}

/** What the main thread did while `act` ran. */
async function traced(cdp: CDPSession, act: () => Promise<void>): Promise<Traced> {
  const events: TraceEvent[] = [];
  const take = (p: { value: object[] }): void => void events.push(...(p.value as TraceEvent[]));
  cdp.on('Tracing.dataCollected', take);
  await cdp.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { includedCategories: ['toplevel', 'devtools.timeline', '__metadata'] } });
  await act();
  const done = new Promise<void>((resolve) => cdp.once('Tracing.tracingComplete', () => resolve()));
  await cdp.send('Tracing.end');
  await done;
  cdp.off('Tracing.dataCollected', take);
  const fires = events.filter((e) => e.name === 'FireAnimationFrame');
  const main = fires[0];
  if (!main) throw new Error('no frames in the trace');
  const starts = fires.map((e) => e.ts).sort((a, b) => a - b);
  return {
    frames: starts.filter((ts, i) => i === 0 || ts - (starts[i - 1] as number) > 4000),
    tasks: outermost(events.filter((e) => e.pid === main.pid && e.tid === main.tid && e.ph === 'X' && e.name.endsWith('RunTask'))),
  };
}

function outermost(tasks: readonly TraceEvent[]): TraceEvent[] {
  let end = Number.NEGATIVE_INFINITY;
  return [...tasks]
    .sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0))
    .filter((t) => {
      const outer = t.ts >= end;
      if (outer) end = t.ts + (t.dur ?? 0);
      return outer;
    });
}

const sum = (tasks: readonly TraceEvent[]): number => tasks.reduce((ms, t) => ms + (t.tdur ?? t.dur ?? 0) / 1000, 0);

/** Main-thread time between animation frames while `act` runs, ms. */
export async function costs(cdp: CDPSession, act: () => Promise<void>): Promise<number[]> {
  const { frames, tasks } = await traced(cdp, act);
  return frames.slice(0, -1).map((from, i) => sum(tasks.filter((t) => t.ts >= from && t.ts < (frames[i + 1] as number))));
}

/** All main-thread time while `act` runs, ms. */
export async function work(cdp: CDPSession, act: () => Promise<void>): Promise<number> {
  return sum((await traced(cdp, act)).tasks);
}
