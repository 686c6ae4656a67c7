import { letterOf } from '../analysis/views.ts';
import { wiringsOf } from '../plan/alternatives.ts';
import { counted } from '../plan/given.ts';
import type { Plan } from '../plan/types.ts';
import type { Autosave } from './autosave.ts';
import type { App } from './store.ts';

export interface Siblings {
  /** The plan with the numbers that its other kept wirings have given: none of them is given here to something else. */
  counted(plan: Plan): Promise<Plan>;
  /** Another tab has kept another wiring of the open plan: its numbers are taken here too. */
  recount(): Promise<void>;
}

/**
 * The other wirings of a plan, kept beside it.
 * @param read a kept plan without opening it; null when it is not there or cannot be read
 */
export function siblings(
  app: App,
  read: (id: string) => Promise<Plan | null>,
  refreshList: () => Promise<void>,
  autosave: () => Pick<Autosave, 'unsaved' | 'elsewhere'> | null,
): Siblings {
  const countedHere = async (plan: Plan): Promise<Plan> => {
    const others = wiringsOf(plan, app.getState().plans).filter((entry) => entry.id !== plan.id);
    if (others.length === 0) return plan;
    const found = await Promise.all(others.map(({ id }) => read(id).catch(() => null)));
    return counted(
      plan,
      letterOf,
      found.flatMap((other) => other ?? []),
    );
  };
  const recount = async (): Promise<void> => {
    await refreshList();
    const before = app.getState().plan;
    const plan = before && (await countedHere(before));
    // Drawn on in the meantime.
    if (app.getState().plan !== before) return recount();
    if (!plan || plan === before) return;
    // It is found anew each time, and alone no reason to write.
    if (!autosave()?.unsaved()) autosave()?.elsewhere(plan);
    app.setState({ plan });
  };
  return { counted: countedHere, recount };
}
