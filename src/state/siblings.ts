import { letterOf } from '../analysis/views.ts';
import { letterOf as wiringLetter, wiringsOf } from '../plan/alternatives.ts';
import { counted } from '../plan/given.ts';
import { listed } from '../plan/listed.ts';
import { sharedNumbers } from '../plan/shared.ts';
import type { Plan } from '../plan/types.ts';
import type { Autosave } from './autosave.ts';
import type { App } from './store.ts';

const SHARED = 'All keep their numbers, because labels may be fitted already: look which wiring a sheet belongs to before you go by a number.';
/** Numbers named before "and n more". */
const NAMED = 8;

export interface Siblings {
  /** The plan with the numbers that its other kept wirings have given: none of them is given here to something else. */
  counted(plan: Plan): Promise<Plan>;
  /** Numbers that stand here and in another wiring for different things, in words; null when there are none. */
  shared(plan: Plan): Promise<string | null>;
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
  const others = async (plan: Plan): Promise<Plan[]> => {
    const entries = wiringsOf(plan, app.getState().plans).filter((entry) => entry.id !== plan.id);
    const found = await Promise.all(entries.map(({ id }) => read(id).catch(() => null)));
    return found.flatMap((other) => other ?? []);
  };
  const countedHere = async (plan: Plan): Promise<Plan> => {
    const found = await others(plan);
    return found.length === 0 ? plan : counted(plan, letterOf, found);
  };
  const shared = async (plan: Plan): Promise<string | null> => {
    const found = await others(plan);
    const lists = found.flatMap((other) => {
      const numbers = sharedNumbers(plan, other, letterOf);
      return numbers.length === 0 ? [] : [`Wiring ${wiringLetter(other)} has other things under ${listed(numbers, NAMED)} than this one.`];
    });
    return lists.length === 0 ? null : [...lists, SHARED].join(' ');
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
  return { counted: countedHere, shared, recount };
}
