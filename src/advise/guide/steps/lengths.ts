import { setRun } from '../../../plan/edits.ts';
import type { Id } from '../../../plan/types.ts';
import { fact, hasWires, wire } from '../checks.ts';
import { Kit } from '../kit.ts';
import type { Check, GuideStep, Scope } from '../types.ts';

/** A way through a cab until it is measured, m (common practice, no source). */
const UNMEASURED_M = 2;

export const lengths: GuideStep = {
  id: 'lengths',
  stage: 'draw',
  title: 'How long the wires are',
  todo: 'Lay a string where the cable will lie, measure it, and type it as the run between the two zones, or for a single wire on its card.',
  why: 'Length and current make the loss, and the loss makes the wire’s size. A wire without a length has no figures.',
  byHand: 'Above the drawing, between two zones: the run and its metres. Or select a wire and type its length.',
  rules: ['length-unlikely'],
  checks(scope): Check[] {
    const open = withoutLength(scope);
    return [
      fact('There are wires to measure.', hasWires(scope)),
      {
        text: open.length === 0 ? 'Every wire has a length, its own or its run’s.' : `${open.length} of the wires have no length yet.`,
        met: open.length === 0,
        about: open.map(wire),
      },
    ];
  },
  offer(scope) {
    const { plan, facts, results } = scope;
    const kit = new Kit(plan, facts);
    for (const id of withoutLength(scope)) {
      const row = results.filled.wires[id];
      const [a, b] = [plan.parts[row?.from.part ?? '']?.zone, plan.parts[row?.to.part ?? '']?.zone];
      const known = Object.values(kit.plan.runs).some((r) => (r.a === a && r.b === b) || (r.a === b && r.b === a));
      if (a !== undefined && b !== undefined && a !== b && !known) kit.take(setRun(kit.plan, a, b, UNMEASURED_M).edit);
    }
    return kit.offer(`Plan with ${UNMEASURED_M} m until you have measured`);
  },
};

function withoutLength({ results }: Scope): Id[] {
  return Object.values(results.filled.wires)
    .filter((w) => w.owner === 'build' && w.lengthM === undefined)
    .map((w) => w.id);
}
