import { settlePlan } from '../../src/advise/settle.ts';
import { makeFacts } from '../../src/analysis/facts.ts';
import { analyse } from '../../src/analysis/index.ts';
import { runRules } from '../../src/rules/engine.ts';
import { rules } from '../../src/rules/index.ts';
import { largePlan } from './largePlan.ts';
import { measure, type Row } from './measure.ts';

const WARM_UPS = 20;

/** All rules over facts that nobody has asked anything yet; solving comes before and is not counted. */
export async function run(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [parts, aimMs, rounds] of [
    [60, 6, 50],
    [1000, 120, 20],
  ] as const) {
    const { filled, known } = settlePlan(largePlan(parts));
    const { analysis, groundwork } = analyse(filled, known);
    const fresh = Array.from({ length: rounds + WARM_UPS + 1 }, () => makeFacts(filled, analysis, groundwork));
    rows.push(await measure(`all rules, ${parts} parts`, aimMs, () => runRules(rules, fresh.pop()!), rounds, WARM_UPS));
  }
  return rows;
}
