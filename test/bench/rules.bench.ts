import { settlePlan } from '../../src/advise/settle.ts';
import { stagedResults } from '../../src/advise/staged.ts';
import { makeFacts } from '../../src/analysis/facts.ts';
import { analyseFirst } from '../../src/analysis/index.ts';
import { runRules } from '../../src/rules/engine.ts';
import { rules } from '../../src/rules/index.ts';
import { largePlan } from './largePlan.ts';
import { measure, type Row } from './measure.ts';

const WARM_UPS = 20;
const ROUNDS = 20;

/** The rules that need no solves of their own; what they read is solved before and not counted. */
const QUICK = rules.filter((r) => r.needs !== 'solve');

/** Graph and figure rules over facts that nobody has asked anything yet; then the second look with its own solves. */
export async function run(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [parts, aimMs, rounds] of [
    [60, 6, 50],
    [1000, 120, 20],
  ] as const) {
    const { filled, known } = settlePlan(largePlan(parts));
    const { analysis, groundwork } = analyseFirst(filled, known);
    const fresh = Array.from({ length: rounds + WARM_UPS + 1 }, () => makeFacts(filled, analysis, groundwork));
    rows.push(await measure(`graph and figure rules, ${parts} parts`, aimMs, () => runRules(QUICK, fresh.pop()!), rounds, WARM_UPS));
  }
  const staged = Array.from({ length: ROUNDS + WARM_UPS + 1 }, () => stagedResults(largePlan(60)));
  rows.push(await measure('second look, 60 parts', 300, () => staged.pop()!.second(), ROUNDS, WARM_UPS));
  return rows;
}
