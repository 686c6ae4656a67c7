import { describe, it } from 'vitest';
import { setMoving } from '../../src/plan/edits.ts';
import type { Moving, Plan } from '../../src/plan/types.ts';
import { applyOrThrow } from './applied.ts';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'moving-without-loop';

/** A wire from the seat over the run to the desk, on which something moves. */
const lid = () => bench().part('far', 'splice', 'desk').wire('fuse.2', 'far.s', {}, 'over');
const moving = (plan: Plan, what: Moving): Plan => {
  const run = Object.values(plan.runs).find((r) => r.a === 'z3' && r.b === 'z4')!;
  return applyOrThrow(plan, setMoving(plan, run.id, what));
};

describe('wire over something that moves', () => {
  it('a hinge is a fault, a tilting cab a hazard', () => {
    const b = lid();
    flagged(moving(b.plan, 'hinge'), RULE, { level: 'fault', subject: b.wireId('over'), says: ['hinge', '“Desk”'], repairs: 1 });
    flagged(moving(b.plan, 'tilt'), RULE, { level: 'hazard', subject: b.wireId('over'), repairs: 1 });
  });

  it('fine strands with a loop', () => clean(moving(lid().wireSet('over', { looped: true }).plan, 'tilt'), RULE));

  it('wires that do not go there are no matter', () => {
    quiet(moving(bench().plan, 'tilt'), RULE);
    quiet(lid(), RULE);
  });
});
