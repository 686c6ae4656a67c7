import type { Stage } from './types.ts';

/** The stages of the job, first to last. */
export const STAGES: readonly Stage[] = ['find', 'draw', 'buy', 'wire', 'test', 'software', 'keep'];

/** Where a plan stands that says nothing of it. */
export const FIRST_STAGE: Stage = 'draw';

/**
 * Has a plan that stands at `now` come as far as `from`? Absent = drawing, for both. What belongs to finding and drawing
 * has always come: whoever looks at a lead once more is still drawing.
 */
export function reached(now: Stage | undefined, from: Stage | undefined): boolean {
  const least = STAGES.indexOf(from ?? FIRST_STAGE);
  return least <= STAGES.indexOf(FIRST_STAGE) || STAGES.indexOf(now ?? FIRST_STAGE) >= least;
}
