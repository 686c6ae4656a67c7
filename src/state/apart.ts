import { freshPlanId } from '../plan/new.ts';
import type { KeptPlan } from './storage.ts';

export const BEHIND_TEXT =
  'Another tab has changed this plan since it was opened here. What the other tab kept stays; what you changed here is not saved yet. Whichever you go on with, the other is kept beside it.';

/** The same plan, with its undo, under an id and a title of its own; it is no wiring of another plan any more. */
export function ownCopy(kept: KeptPlan): KeptPlan {
  const { alternative: _, ...plan } = kept.plan;
  const { over: __, ...rest } = kept;
  return { ...rest, plan: { ...plan, id: freshPlanId(), title: `${plan.title || 'Untitled plan'}, second tab`.slice(-80) } };
}
