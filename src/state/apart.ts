import { freshPlanId } from '../plan/new.ts';
import type { Plan } from '../plan/types.ts';
import { saveFile } from './files.ts';
import type { KeptPlan } from './storage.ts';
import type { App } from './store.ts';

export const BEHIND_TEXT =
  'Another tab has changed this plan since it was opened here. What the other tab kept stays; what you changed here is not saved yet. Whichever you go on with, the other is kept beside it.';

/** The same plan, with its undo, under an id and a title of its own; it is no wiring of another plan any more. */
export function ownCopy(kept: KeptPlan): KeptPlan {
  const { alternative: _, ...plan } = kept.plan;
  const { over: __, ...rest } = kept;
  return { ...rest, plan: { ...plan, id: freshPlanId(), title: `${plan.title || 'Untitled plan'}, second tab`.slice(-80) } };
}

/** What is needed to keep two tabs' works apart; nothing here rejects. */
export interface Apart {
  readonly app: App;
  /** False where it could not be written. */
  write(kept: KeptPlan): Promise<boolean>;
  refreshList(): Promise<void>;
  /** Opens what is kept under an id, in place of the open plan. */
  reopen(id: string): Promise<unknown>;
  /** This state of a plan is kept under another id. */
  elsewhere(plan: Plan): void;
  /** Says that nothing could be kept. */
  fail(): void;
}

/** @returns what to do when another tab's work is kept under a plan: that stays, and of this one nothing gets lost */
export function askWhichStays({ app, write, refreshList, reopen, elsewhere, fail }: Apart): (kept: KeptPlan) => void {
  const ask = (kept: KeptPlan): void => {
    const mine = (): KeptPlan => {
      const { plan, past, future } = app.getState();
      return ownCopy(plan?.id === kept.plan.id ? { ...kept, plan, past, future } : kept);
    };
    if (app.getState().plan?.id !== kept.plan.id) {
      // Left behind in the meantime, so nobody can be asked.
      void write(mine()).then((done) => (done ? refreshList() : fail()));
      return;
    }
    if (app.getState().notice?.text === BEHIND_TEXT) return;
    const keepMine = (): void => {
      const { plan, past, future } = mine();
      const { plan: now, keyPosition, band } = app.getState();
      if (now) elsewhere(now);
      app.getState().load(plan, past);
      // On screen it is the same build, looked at as before.
      app.setState({ future, keyPosition, band });
    };
    const takeTheirs = async (): Promise<void> => {
      const now = app.getState().plan;
      if (!(await write(mine()))) return fail();
      await refreshList();
      // Drawn on in the meantime: asked again, nothing is dropped.
      if (app.getState().plan !== now) return ask(kept);
      await reopen(kept.plan.id);
    };
    app.getState().setNotice({
      kind: 'problem',
      text: BEHIND_TEXT,
      action: { label: 'Keep mine as a plan of its own', run: keepMine },
      also: [
        { label: 'Go on with the other tab’s', run: takeTheirs },
        { label: 'Save mine as a file', run: () => void saveFile(app) },
      ],
    });
  };
  return ask;
}
