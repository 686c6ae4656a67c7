import { defaultScenario, tidyScenario } from '../analysis/time/scenario.ts';
import { emptyPlan } from '../plan/new.ts';
import type { Plan } from '../plan/types.ts';
import type { GetState, SetState } from './planSlice.ts';
import type { AppState, Timed, TimeTask } from './types.ts';

type TimeSlice = Pick<AppState, TimeTask | 'watch' | 'watched' | 'setScenario' | 'cancel' | 'again'>;

const NOTHING: Timed<never> = { result: null, resultFor: null, busy: false, share: 0, error: null, asked: 0 };
const NO_PLAN = emptyPlan('', {}, 'none');

/** What is computed in time. The slice says what is wanted; timeClient.ts has it computed. */
export function timeSlice(set: SetState, get: GetState): TimeSlice {
  const count = (task: TimeTask, by: number): void => {
    const { watched } = get();
    set({ watched: { ...watched, [task]: watched[task] + by } });
  };
  return {
    cycle: { ...NOTHING, scenario: defaultScenario(NO_PLAN) },
    margins: NOTHING,
    weeks: NOTHING,
    spread: NOTHING,
    events: NOTHING,
    watched: { cycle: 0, margins: 0, weeks: 0, spread: 0, events: 0 },
    watch: (task) => {
      let isOver = false;
      count(task, 1);
      return () => {
        if (!isOver) count(task, -1);
        isOver = true;
      };
    },
    setScenario: (patch) => {
      const { cycle, plan } = get();
      const base = plan ?? NO_PLAN;
      set({ cycle: { ...cycle, scenario: patch ? tidyScenario(base, { ...cycle.scenario, ...patch }) : defaultScenario(base) } });
    },
    cancel: (task) => set(patchTask(get(), task, { busy: false, share: 0 })),
    again: (task) => set(patchTask(get(), task, { asked: get()[task].asked + 1, error: null })),
  };
}

/** A change of what is common to all tasks. */
export function patchTask(state: AppState, task: TimeTask, patch: Partial<Timed<never>>): Partial<AppState> {
  return { [task]: { ...state[task], ...patch } };
}

/** Nothing computed yet, for a plan that has been opened: its own turn of the key. */
export function freshTime(plan: Plan | null): Pick<AppState, TimeTask> {
  return { cycle: { ...NOTHING, scenario: defaultScenario(plan ?? NO_PLAN) }, margins: NOTHING, weeks: NOTHING, spread: NOTHING, events: NOTHING };
}
