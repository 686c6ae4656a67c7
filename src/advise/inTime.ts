import { events, keyCycle, margins, parkedWeeks, spread, type TimeBase, timeBase } from '../analysis/time/index.ts';
import type { EventReport, KeyCycle, ParkedWeeks, Scenario, Spread, WorstMargin } from '../analysis/time/types.ts';
import { sameRow } from '../plan/equal.ts';
import type { Plan } from '../plan/types.ts';
import { settlePlan } from './settle.ts';

/** What is asked of a plan in time; the plan as the person left it. */
export type TimeOrder =
  | { readonly kind: 'cycle'; readonly plan: Plan; readonly scenario: Scenario }
  | { readonly kind: 'margins' | 'weeks' | 'spread' | 'events'; readonly plan: Plan };
export type TimeResult = KeyCycle | readonly WorstMargin[] | ParkedWeeks | Spread | readonly EventReport[];

/** How far an order has come, with what is known so far. */
export interface TimeStep {
  readonly share: number;
  readonly partial?: Spread;
}

let last: { readonly plan: Plan; readonly base: TimeBase } | null = null;

/** The filled plan ready for calculations in time; the last one is kept, since its tasks come one after another. */
export function timeBaseOf(plan: Plan): TimeBase {
  if (!last || !sameRow(last.plan, plan)) {
    const { filled, known } = settlePlan(plan);
    last = { plan, base: timeBase(filled, known) };
  }
  return last.base;
}

/**
 * Carries out an order in steps, so that between two of them others may be heard. A turn of the key is one step: it
 * tells how far it is by `onShare`.
 */
export function* inTime(order: TimeOrder, onShare?: (share: number) => void): Generator<TimeStep, TimeResult> {
  const base = timeBaseOf(order.plan);
  switch (order.kind) {
    case 'cycle':
      return keyCycle(base, order.scenario, {
        onProgress: (share) => {
          onShare?.(share);
          return false;
        },
      });
    case 'weeks':
      return parkedWeeks(base);
    case 'margins': {
      const runs = margins(base);
      for (;;) {
        const step = runs.next();
        if (step.done) return step.value;
        yield { share: step.value };
      }
    }
    case 'events': {
      const runs = events(base);
      for (;;) {
        const step = runs.next();
        if (step.done) return step.value;
        yield { share: step.value };
      }
    }
    case 'spread': {
      const runs = spread(base);
      for (;;) {
        const step = runs.next();
        if (step.done) return step.value;
        yield { share: step.value.done / step.value.runs, partial: step.value };
      }
    }
  }
}
