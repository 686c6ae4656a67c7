import { useDeferredValue, useMemo, useState } from 'react';
import type { JobLists, JobStage } from '../advise/jobTypes.ts';
import type { Results } from '../advise/types.ts';
import { later, useLater } from '../faces/useLater.ts';
import type { Plan } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import type { AppState } from '../state/types.ts';

/** The lists come with the wiring sheet's code, which the first picture does not wait for. */
export const jobCode = later('The job', () => import('../sheet/job.ts'));
type Code = Awaited<ReturnType<typeof jobCode.load>>;

const listsOf = new WeakMap<Results, { readonly unit: string; readonly lists: JobLists }>();

/** The stages of a plan with its results; the lists behind them are made once for all who ask. */
export function stagesOf({ contextOf, jobLists, jobLine }: Code, plan: Plan, results: Results, unit: AppState['units']['length']): readonly JobStage[] {
  const known = listsOf.get(results);
  const lists = known?.unit === unit ? known.lists : jobLists(contextOf(results), unit);
  listsOf.set(results, { unit, lists });
  return jobLine(plan, results, lists);
}

/** The job as it stands: ticks at once, what is computed as soon as it is. Null until there is something to say. */
export function useJob(): readonly JobStage[] | null {
  const plan = useApp((s) => s.plan);
  // What is dragged may yet go elsewhere: the list keeps still meanwhile.
  const settled = useApp((s) => (s.provisional === null ? s.results : null));
  const unit = useApp((s) => s.units.length);
  const [calm, setCalm] = useState(settled);
  if (settled !== null && settled !== calm) setCalm(settled);
  const results = useDeferredValue(calm);
  const code = useLater(jobCode);
  return useMemo(() => (plan && results && code && results.filled.id === plan.id ? stagesOf(code, plan, results, unit) : null), [plan, results, code, unit]);
}

/** Runs once the figures are those of the plan as it stands, at once when they are; or gives up: another plan, no figures. */
export function whenCurrent(run: () => void, giveUp: () => void): void {
  const current = (): boolean => {
    const { plan, resultsFor } = app.getState();
    return plan !== null && resultsFor === plan;
  };
  if (current()) {
    run();
    return;
  }
  const id = app.getState().plan?.id;
  const stop = app.subscribe(() => {
    const { plan, workerError } = app.getState();
    const lost = plan?.id !== id || workerError !== null;
    // Several may wait: the first one to run changes the plan, and the others wait again.
    if (!lost && !current()) return;
    stop();
    if (lost) giveUp();
    else run();
  });
}
