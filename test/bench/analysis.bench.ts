import { computeResults } from '../../src/advise/index.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan, largePlan } from './largePlan.ts';
import { measure, type Row } from './measure.ts';

/** Everything computed for a plan (automatic values, all readings, findings), as the worker does it. */
export async function run(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [name, aimMs, rounds, plan] of [
    ['the demo', 15, 50, demoPlan],
    ['60 parts', 15, 50, largePlan(60)],
    ['300 parts', 80, 50, largePlan(300)],
    ['1,000 parts', 300, 20, largePlan(1000)],
  ] as const) {
    rows.push(await measure(`whole results, ${name}`, aimMs, job(plan), rounds, WARM_UPS));
  }
  return rows;
}

/** Calls before times count: until then much of the code has not been compiled. */
const WARM_UPS = 20;

/** A new plan object each round, so that nothing kept by identity from the round before helps. */
function job(plan: Plan): (round: number) => unknown {
  return () => computeResults({ ...plan, parts: { ...plan.parts }, wires: { ...plan.wires }, runs: { ...plan.runs } });
}
