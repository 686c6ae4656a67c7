import type { Plan } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';

/** Scenes that are kept: as many steps of undo as a person is likely to go back and forth. */
const KEPT = 24;

/**
 * The last scenes by the plan they showed. A plan that came back by undo has the very rows of the one before, so it can
 * get its old picture back although routes otherwise depend on what was moved when.
 */
export class ShownScenes {
  private kept: { readonly plan: Plan; readonly scene: Scene }[] = [];

  sceneOf(plan: Plan): Scene | null {
    return this.kept.find((k) => sameRows(k.plan, plan))?.scene ?? null;
  }

  keep(plan: Plan, scene: Scene): void {
    this.kept = [{ plan, scene }, ...this.kept.filter((k) => !sameRows(k.plan, plan))].slice(0, KEPT);
  }
}

function sameRows(a: Plan, b: Plan): boolean {
  return a.id === b.id && same(a.parts, b.parts) && same(a.wires, b.wires) && same(a.zones, b.zones);
}

function same<T>(a: Readonly<Record<string, T>>, b: Readonly<Record<string, T>>): boolean {
  if (a === b) return true;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((k) => a[k] === b[k]);
}
