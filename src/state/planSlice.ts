import { letterOf } from '../analysis/views.ts';
import { familyOf } from '../plan/alternatives.ts';
import { apply, invert, merge, sameTarget } from '../plan/apply.ts';
import { keepCount } from '../plan/given.ts';
import { beyondLimits } from '../plan/limitsCheck.ts';
import type { Edit, Id, Plan } from '../plan/types.ts';
import { tyingBends } from '../scene/bends.ts';
import { misfitOfKinds } from './fits.ts';
import { freshTime } from './timeSlice.ts';
import type { AppState, Selection } from './types.ts';
import { FIRST_LOOK } from './viewSlice.ts';

export type GetState = () => AppState;
export type SetState = (patch: Partial<AppState>) => void;

/** Edits of the same intent on the same fields that follow within this time stand as one entry of undo, ms. */
export const JOIN_MS = 500;
/** Entries of undo that are kept. */
export const KEPT_EDITS = 500;

const NOTHING: Selection = { parts: [], wires: [] };

type PlanSlice = Pick<AppState, 'plan' | 'past' | 'future' | 'apply' | 'undo' | 'redo' | 'load' | 'close' | 'provisional' | 'setProvisional'>;

/** The plan with its undo. `now` gives milliseconds; tests pass their own clock. */
export function planSlice(set: SetState, get: GetState, now: () => number): PlanSlice {
  // After undo, redo and load the next edit always starts an entry of its own.
  let lastEditAt = Number.NEGATIVE_INFINITY;

  const remember = (edit: Edit): readonly Edit[] => {
    const { past } = get();
    const last = past.at(-1);
    const joins = last !== undefined && last.intent === edit.intent && now() - lastEditAt <= JOIN_MS && sameTarget(last, edit);
    if (!joins) return [...past, edit].slice(-KEPT_EDITS);
    const joined = merge(last, edit);
    // Typed and typed back: nothing is left to undo.
    return joined.changes.length === 0 ? past.slice(0, -1) : [...past.slice(0, -1), joined];
  };

  const step = (edit: Edit, past: readonly Edit[], future: readonly Edit[], verb: string): void => {
    const plan = get().plan;
    if (!plan) return;
    const done = apply(plan, edit);
    if (!done.ok) {
      set({ notice: { kind: 'problem', text: `${verb} “${edit.label}” is not possible: ${done.reason}.` } });
      return;
    }
    lastEditAt = Number.NEGATIVE_INFINITY;
    set({ plan: keepCount(done.plan, plan, letterOf), past, future, provisional: null, ...still(done.plan, get()) });
  };

  const fresh = (plan: Plan | null, past: readonly Edit[]): Partial<AppState> => {
    lastEditAt = Number.NEGATIVE_INFINITY;
    return {
      plan,
      past,
      future: [],
      provisional: null,
      results: null,
      resultsFor: null,
      looking: false,
      workerError: null,
      selection: NOTHING,
      pointed: NOTHING,
      pressed: [],
      momentary: null,
      placing: null,
      wiringFrom: null,
      scene: null,
      ...freshTime(plan),
    };
  };

  return {
    plan: null,
    past: [],
    future: [],
    provisional: null,
    apply(wanted) {
      const { plan, scene } = get();
      if (!plan) return { ok: false, reason: 'no plan is open' };
      const edit = tyingBends(plan, wanted, scene?.zones ?? []);
      const done = apply(plan, edit);
      if (!done.ok) return done;
      if (done.plan === plan) {
        set({ provisional: null });
        return { ok: true };
      }
      const misfit = beyondLimits(edit) ?? misfitOfKinds(done.plan, edit);
      if (misfit !== null) return { ok: false, reason: misfit };
      const past = remember(edit);
      lastEditAt = now();
      set({ plan: keepCount(done.plan, plan, letterOf), past, future: [], provisional: null, ...still(done.plan, get()) });
      return { ok: true };
    },
    undo() {
      const { past, future } = get();
      const edit = past.at(-1);
      if (edit) step(invert(edit), past.slice(0, -1), [...future, edit], 'Undo of');
    },
    redo() {
      const { past, future } = get();
      const edit = future.at(-1);
      if (edit) step(edit, [...past, edit], future.slice(0, -1), 'Redo of');
    },
    load(plan, past = []) {
      const open = get().plan;
      // Another plan is another vehicle; wirings of one plan are looked at with the key where it was.
      const isOther = open === null || familyOf(open) !== familyOf(plan);
      set({ ...fresh(plan, past), ...(isOther ? FIRST_LOOK : {}) });
    },
    close() {
      set(fresh(null, []));
    },
    setProvisional(plan) {
      set({ provisional: plan });
    },
  };
}

/** Selection, pointer and held buttons without what is no longer on the plan; same objects when nothing went. */
function still(plan: Plan, state: AppState): Pick<AppState, 'selection' | 'pointed' | 'wiringFrom' | 'pressed'> {
  const from = state.wiringFrom;
  return {
    selection: kept(plan, state.selection),
    pointed: kept(plan, state.pointed),
    wiringFrom: from && plan.parts[from.part] ? from : null,
    pressed: state.pressed.every((id) => plan.parts[id]) ? state.pressed : state.pressed.filter((id) => plan.parts[id]),
  };
}

function kept(plan: Plan, selection: Selection): Selection {
  const parts = selection.parts.filter((id: Id) => plan.parts[id]);
  const wires = selection.wires.filter((id: Id) => plan.wires[id]);
  return parts.length === selection.parts.length && wires.length === selection.wires.length ? selection : { parts, wires };
}
