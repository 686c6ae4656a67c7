/** Work in one go, ms: what is left of a frame when nothing else happens in it. */
const SLICE_MS = 6;
/** What was just done is drawn first, ms. */
const FIRST_MS = 120;
/** A page that is never idle gets on with it all the same, ms. */
const PATIENCE_MS = 300;

/**
 * Carries long work out in the pauses of the page, a little at a time, and not at all while something moves: one step may
 * take longer than a frame.
 */
export class Care<T> {
  private steps: Generator<void, T> | null = null;
  private handle = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** @param isMoving is something on the drawing in motion now? */
  constructor(private readonly isMoving: () => boolean) {}

  /** Begins anew; what was being done is dropped. `null` only drops it. */
  start(steps: Generator<void, T> | null, done: (result: T) => void): void {
    this.stop();
    if (!steps) return;
    this.steps = steps;
    this.timer = setTimeout(() => this.later(done), FIRST_MS);
  }

  stop(): void {
    clearTimeout(this.timer);
    if (this.handle !== 0) cancel(this.handle);
    this.handle = 0;
    this.steps = null;
  }

  private later(done: (result: T) => void): void {
    this.handle = whenIdle(() => this.slice(done));
  }

  private slice(done: (result: T) => void): void {
    this.handle = 0;
    if (this.isMoving()) {
      this.timer = setTimeout(() => this.later(done), FIRST_MS);
      return;
    }
    const end = performance.now() + SLICE_MS;
    do {
      const step = this.steps?.next();
      if (!step) return;
      if (step.done) {
        this.steps = null;
        done(step.value);
        return;
      }
    } while (performance.now() < end);
    this.later(done);
  }
}

function whenIdle(run: () => void): number {
  return 'requestIdleCallback' in window ? window.requestIdleCallback(run, { timeout: PATIENCE_MS }) : Number(setTimeout(run, 16));
}

function cancel(handle: number): void {
  if ('cancelIdleCallback' in window) window.cancelIdleCallback(handle);
  else clearTimeout(handle);
}
