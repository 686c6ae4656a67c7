import { viewsOf } from '../analysis/views.ts';
import { diffPlans, madeDiff, type PlanDiff } from '../plan/diff.ts';
import type { Plan, Revision, Tables } from '../plan/types.ts';

/** What a build is compared with, and what came of it. */
export interface Since {
  readonly revision: Revision;
  /** The build as it was: its rows and what it kept of the vehicle, in a plan of otherwise today's words. */
  readonly was: Plan;
  /** Only what matters at the vehicle. */
  readonly diff: PlanDiff;
}

/**
 * What changed at the vehicle since a revision; null when there is no such revision or its looks were let go.
 * @param filled the plan with its automatic values: what comes out otherwise today counts as changed
 */
export function changesSince(filled: Plan, number: number): Since | null {
  const revision = filled.revisions?.[`v${number}`];
  if (!revision?.was) return null;
  const was: Plan = { ...filled, ...revision.was };
  return { revision, was, diff: madeDiff(diffPlans(revision.was, filled)) };
}

/** Nothing that matters at the vehicle is different. */
export function isUnchanged({ diff }: Since): boolean {
  return diff.head.length === 0 && [diff.parts, diff.wires, diff.zones, diff.runs].every((t) => t.added.length + t.removed.length + t.changed.length === 0);
}

/** Said of a revision that kept no facts of the vehicle: whether they changed since cannot be told. */
export function untold({ revision: { was, number } }: Since): string | null {
  if (!was || (was.vehicle && was.thresholds)) return null;
  return `Revision ${number} was made before revisions kept the facts of the vehicle and the plan’s own limits: whether those have changed cannot be told.`;
}

/** `F1 Main fuse` of every part of a plan, by id. */
export function labelsOf(plan: Tables & Pick<Plan, 'gone'>): ReadonlyMap<string, string> {
  return new Map([...viewsOf(plan as Plan).values()].map((v) => [v.part.id, `${v.item} ${v.name}`]));
}
