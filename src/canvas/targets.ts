import type { Point } from '../drawing/types.ts';
import type { End, Plan } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';
import { sensibleEnds } from './sensibleEnds.ts';

/** Most terminals that light up at once: the best ones, not half the plan. */
const LIT = 24;

/** World places of the sensible other ends of a wire from this terminal. */
export function litTargets(plan: Plan, scene: Scene, from: End): Point[] {
  return sensibleEnds(plan, from)
    .slice(0, LIT)
    .flatMap(({ end }) => {
      const pad = scene.parts.get(end.part)?.pads[end.terminal];
      return pad ? [{ x: pad.x, y: pad.y }] : [];
    });
}
