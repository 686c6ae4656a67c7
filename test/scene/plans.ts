import { apply } from '../../src/plan/apply.ts';
import { addParts, type Fragment } from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Edit, Id, Plan } from '../../src/plan/types.ts';

export function done(plan: Plan, edit: Edit): Plan {
  const result = apply(plan, edit);
  if (!result.ok) throw new Error(result.reason);
  return result.plan;
}

/** A plan of the given parts and wires in the four zones of a new plan, with ids by key. */
export function planOf(
  parts: Fragment['parts'],
  wires: Fragment['wires'],
): { readonly plan: Plan; readonly ids: Readonly<Record<string, Id>>; readonly wires: readonly Id[] } {
  const plan = emptyPlan('Test', {}, 'test');
  const added = addParts(plan, { parts, wires });
  return { plan: done(plan, added.edit), ids: added.ids, wires: added.wires };
}

/** A small true build: feed, fuse, converter, computer, button, grounds. */
export function smallBuild(): ReturnType<typeof planOf> {
  return planOf(
    [
      { key: 'battery', kind: 'battery', zone: 'z1', x: 40, y: 200, owner: 'vehicle' },
      { key: 'feed', kind: 'feed-30', zone: 'z2', x: 30, y: 60, owner: 'vehicle' },
      { key: 'fuse', kind: 'blade-fuse', zone: 'z2', x: 200, y: 70 },
      { key: 'ground', kind: 'chassis-ground', zone: 'z2', x: 100, y: 0 },
      { key: 'down', kind: 'step-down', zone: 'z3', x: 60, y: 60 },
      { key: 'pc', kind: 'computer', zone: 'z3', x: 300, y: 40 },
      { key: 'button', kind: 'push-button', zone: 'z4', x: 60, y: 300, name: 'Next stop' },
    ],
    [
      { from: ['battery', '+'], to: ['feed', 'in'], extras: { owner: 'vehicle' } },
      { from: ['feed', 'out'], to: ['fuse', '1'], extras: { number: 1, colour: 'RD', areaMm2: 1.5 } },
      { from: ['fuse', '2'], to: ['down', 'in'], extras: { number: 2, colour: 'RD', stripe: 'WH', areaMm2: 1.5 } },
      { from: ['down', 'gnd'], to: ['ground', '31'], extras: { number: 3, colour: 'BK', areaMm2: 1.5 } },
      { from: ['down', 'out'], to: ['pc', '2'], extras: { number: 4, colour: 'VT', areaMm2: 1 } },
      { from: ['down', '0v'], to: ['pc', '6'], extras: { number: 5, colour: 'BK', areaMm2: 1 } },
      { from: ['button', '1'], to: ['pc', '16'] },
      { from: ['button', '2'], to: ['pc', '20'] },
    ],
  );
}
