import type { Results } from '../advise/types.ts';
import type { Id, Plan } from '../plan/types.ts';
import { buildScene, routedAfresh, sceneSteps } from '../scene/buildScene.ts';
import type { Scene } from '../scene/types.ts';
import { EffectivePlan } from './effective.ts';
import { ShownScenes } from './shownScenes.ts';

/** Plans of more wires are first shown with simple shapes: a few hundredths of a second instead of half a second. */
export const FIRST_LOOK = 200;

/** What was shown last of a plan. */
interface Shown {
  readonly plan: Plan;
  readonly rows: Plan;
  readonly scene: Scene;
}

/**
 * The picture of the plan from one state to the next. What stays, keeps its place; a plan that comes back by undo gets back
 * the picture it had. Another plan is laid afresh: its picture does not depend on what was open before.
 */
export class Pictures {
  private readonly effective = new EffectivePlan();
  private readonly shown = new ShownScenes();
  private last: Shown | null = null;
  /** The last picture of the open plan that was laid with care. */
  private careful: Scene | null = null;
  /** The last picture has simple shapes of wires in it: `care` lays them properly. */
  isDraft = false;

  /** @param ways of wires that hung on what was dragged: good enough until there is time for care */
  next(plan: Plan, results: Results | null, ways?: ReadonlyMap<Id, readonly number[]>): Scene {
    const open = this.last?.plan.id === plan.id ? this.last : null;
    if (!open) this.careful = null;
    const wasDraft = open !== null && this.isDraft;
    const rows = this.effective.of(plan, results);
    const known = this.shown.sceneOf(plan);
    if (known || Object.keys(plan.wires).length <= FIRST_LOOK) {
      const before = known ?? this.careful ?? undefined;
      return this.laid(plan, rows, buildScene(rows, before));
    }
    const scene = buildScene(rows, open?.scene, { effort: 'quick', ...(ways ? { ways } : {}) });
    if (open && !wasDraft && routedAfresh(scene) === 0) return this.laid(plan, rows, scene);
    this.last = { plan, rows, scene };
    this.isDraft = true;
    return scene;
  }

  /** Lays the last picture with care, step by step; whoever gets to the end hands the scene to `done`. */
  care(): Generator<void, Scene> | null {
    return this.last && this.isDraft ? sceneSteps(this.last.rows, this.careful ?? undefined) : null;
  }

  /** The last picture is laid with care now. */
  done(scene: Scene): void {
    if (this.last) this.laid(this.last.plan, this.last.rows, scene);
  }

  close(): void {
    this.last = null;
    this.careful = null;
    this.isDraft = false;
  }

  private laid(plan: Plan, rows: Plan, scene: Scene): Scene {
    this.last = { plan, rows, scene };
    this.careful = scene;
    this.isDraft = false;
    this.shown.keep(plan, scene);
    return scene;
  }
}
