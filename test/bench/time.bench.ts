import { settlePlan } from '../../src/advise/settle.ts';
import { allEvents, defaultScenario, fullSpread, keyCycle, type TimeBase, timeBase, worstMargins } from '../../src/analysis/time/index.ts';
import type { Scenario } from '../../src/analysis/time/types.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan, largePlan } from './largePlan.ts';
import { measure, measureCpu, memory, type Row } from './measure.ts';

/** Three minutes of the vehicle with the long start of level II in them. */
const MINUTES: Partial<Scenario> = { keyOnS: 2, startS: 5, keyOffS: 60, doorS: 70, untilS: 180 };
/** What a worker may take for the largest plan, MB. */
const MOST_MB = 200;

/** One turn of the key, worst seconds in hand, the events and the spread of a plan, as the worker does them. */
export async function run(): Promise<Row[]> {
  const demo = baseOf(demoPlan);
  const large = baseOf(largePlan(300));
  return [
    await measure('180 s of one turn of the key, the demo', 300, () => turn(demo), 20),
    await measure('180 s of one turn of the key, 300 parts', 3000, () => turn(large), 3),
    await measureCpu('the same in time of the processor', 3000, () => turn(large), 3),
    memory('memory in it, 300 parts: heap and arrays at most', MOST_MB, (look) => turn(large, look)),
    await measure('worst seconds in hand, the demo', 2000, () => worstMargins(demo), 5),
    await measure('events of the supply, the demo', 1000, () => allEvents(demo), 5),
    await measure('spread of 400 samples, the demo', 2000, () => fullSpread(demo), 5),
  ];
}

function baseOf(plan: Plan): TimeBase {
  const { filled, known } = settlePlan({ ...plan, vehicle: { ...plan.vehicle, dipLevel: 'II' } });
  return timeBase(filled, known);
}

/** @param look called between the steps */
function turn(base: TimeBase, look?: () => void): void {
  const scenario = { ...defaultScenario(base.graph.plan), ...MINUTES };
  const onProgress = (): boolean => {
    look?.();
    return false;
  };
  const cycle = keyCycle(base, scenario, { onProgress });
  if (cycle.outcome !== 'done') throw new Error(`the run ended ${cycle.outcome} at ${cycle.stuck?.tS} s, ${cycle.stuck?.where}`);
}
