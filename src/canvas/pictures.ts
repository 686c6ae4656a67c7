import type { Results } from '../advise/types.ts';
import type { Id, Plan } from '../plan/types.ts';
import { buildScene } from '../scene/buildScene.ts';
import type { Scene } from '../scene/types.ts';
import { EffectivePlan } from './effective.ts';
import { ShownScenes } from './shownScenes.ts';

/** Plans of more wires are first shown with simple shapes: a tenth of a second instead of half a second. */
export const FIRST_LOOK = 200;

/**
 * The picture of the plan from one state to the next. What stays, keeps its place; a plan that comes back by undo gets back
 * the picture it had. Another plan is laid afresh: its picture does not depend on what was open before.
 */
export class Pictures {
  private readonly effective = new EffectivePlan();
  private readonly shown = new ShownScenes();
  private last: { readonly plan: Id; readonly scene: Scene } | null = null;
  /** The last picture has only the simple shapes of its wires: the next one of that plan is laid with care. */
  isDraft = false;

  next(plan: Plan, results: Results | null): Scene {
    const open = this.last?.plan === plan.id ? this.last.scene : null;
    const previous = this.shown.sceneOf(plan) ?? (this.isDraft ? null : open) ?? undefined;
    this.isDraft = !previous && !open && Object.keys(plan.wires).length > FIRST_LOOK;
    const scene = buildScene(this.effective.of(plan, results), previous, this.isDraft ? { effort: 'quick' } : {});
    this.last = { plan: plan.id, scene };
    if (!this.isDraft) this.shown.keep(plan, scene);
    return scene;
  }

  close(): void {
    this.last = null;
    this.isDraft = false;
  }
}
