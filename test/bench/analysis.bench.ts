import { computeResults } from '../../src/advise/index.ts';
import { settlePlan } from '../../src/advise/settle.ts';
import { analyse } from '../../src/analysis/index.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan, largePlan } from './largePlan.ts';
import { measure, type Row } from './measure.ts';

/** Calls before times count: until then much of the code has not been compiled. */
const WARM_UPS = 20;

const SIZES = [
  ['the demo', 15, 50, demoPlan],
  ['60 parts', 15, 50, largePlan(60)],
  ['300 parts', 80, 50, largePlan(300)],
  ['1,000 parts', 300, 20, largePlan(1000)],
] as const;

/**
 * Full analysis of a plan whose automatic values are filled in: readings of every state and band, wires, fuses, what
 * arrives at its worst, parked draw, loads, pins. For comparison the whole that the worker does after an edit: automatic
 * values before it, and the rules after it, which have aims of their own.
 */
export async function run(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [name, aimMs, rounds, plan] of SIZES) {
    const { filled } = settlePlan(plan);
    rows.push(await measure(`full analysis, ${name}`, aimMs, () => analyse(again(filled)), rounds, WARM_UPS));
  }
  for (const [name, , rounds, plan] of SIZES) {
    const whole = await measure(`automatic values, analysis, rules, ${name}`, 0, () => computeResults(again(plan)), rounds, WARM_UPS);
    rows.push({ ...whole, aim: null });
  }
  return rows;
}

/** A new plan object each round, so that nothing kept by identity from the round before helps. */
function again(plan: Plan): Plan {
  return { ...plan, parts: { ...plan.parts }, wires: { ...plan.wires }, runs: { ...plan.runs } };
}
