import { compile } from '../../src/circuit/index.ts';
import { transient } from '../../src/circuit/time/index.ts';
import { measure, type Row } from './measure.ts';
import { timedPlan, UNTIL_S } from './transientPlan.ts';

/** Three minutes of a vehicle's life with a start in them, on plans of about 60 and 120 parts. */
export async function run(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [repeats, aimMs] of [
    [3, 300],
    [6, 900],
  ] as const) {
    const timed = timedPlan(repeats);
    const network = compile(timed.elements(() => false, 0));
    const options = { untilS: UNTIL_S, states: new Map<string, boolean>(), watch: { nodes: ['post', 'in.0', 'out.0'], elements: [{ id: 'winding.0' }] } };
    rows.push(
      await measure(
        `${UNTIL_S} s with a start, ${20 * repeats} parts, ${network.nodes.length} nodes`,
        aimMs,
        () => {
          const trace = transient(network, timed, options);
          if (trace.outcome !== 'done') throw new Error(`the run ended as ${trace.outcome}`);
        },
        20,
      ),
    );
  }
  return rows;
}
