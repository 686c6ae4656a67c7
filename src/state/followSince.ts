import { changesSince, type Since } from '../advise/since.ts';
import { buildScene } from '../scene/buildScene.ts';
import { changePrimitives, faded, happenedTo } from '../scene/changes.ts';
import type { Scene } from '../scene/types.ts';
import type { SinceState } from './since.ts';
import type { App } from './store.ts';

/**
 * Keeps what lies over the drawing in step with plan and scene.
 * @param lost the revision is no longer there: undone, or another plan was opened
 * @returns the function that ends it
 */
export function followSince(app: App, number: number, show: (state: Partial<SinceState>) => void, lost: () => void): () => void {
  const id = app.getState().plan?.id;
  let found: { readonly since: Since; readonly wasScene: Scene } | null = null;
  const look = (): void => {
    const { plan, results, resultsFor, scene } = app.getState();
    if (plan?.id !== id || !plan?.revisions?.[`v${number}`]?.was) {
      lost();
      return;
    }
    // While figures are worked out, the last known changes stand: the picture does not flicker.
    if (results && resultsFor === plan) {
      const since = changesSince(results.filled, number);
      if (since) {
        const { parts, wires, head } = since.diff;
        const count = (what: 'added' | 'changed' | 'removed'): number => parts[what].length + wires[what].length;
        found = { since, wasScene: buildScene(since.was) };
        show({ counts: { added: count('added'), changed: count('changed'), removed: count('removed'), facts: head.length } });
      }
    }
    if (!found || !scene) return;
    const { diff } = found.since;
    show({ overlay: { of: scene, drawn: faded(scene, happenedTo(diff)), over: changePrimitives(scene, found.wasScene, diff) } });
  };
  look();
  return app.subscribe((now, before) => {
    if (now.plan !== before.plan || now.results !== before.results || now.scene !== before.scene) look();
  });
}
