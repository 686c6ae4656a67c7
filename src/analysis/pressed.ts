import type { Id, Plan } from '../plan/types.ts';
import { wireFigures } from './figures.ts';
import { regraph } from './graph.ts';
import { designCurrents, type Known } from './index.ts';
import { pinRows } from './pins.ts';
import { BANDS, MOMENT_S, Solver, walk } from './readings.ts';
import { KEY_POSITIONS, type PinRow, type Reading } from './types.ts';

/** What stands everywhere in the moment in which buttons are pressed. */
export interface PressedMoment {
  /** One for each of the six key positions in each band, in the order of `Analysis.index`. */
  readonly readings: readonly Reading[];
  readonly pins: readonly PinRow[];
}

/**
 * Readings just after buttons go down, at each key position: the key's walk with every button released, then the press.
 * What takes longer than a moment (a computer that stops, a timer) has not happened yet.
 * @param plan with every automatic value filled in
 * @param pressed ids of the parts held down
 */
export function pressedMoment(plan: Plan, pressed: ReadonlySet<Id>, known?: Known): PressedMoment {
  const design = known?.design ?? designCurrents(plan);
  const graph = regraph(design.graph, plan);
  const solver = new Solver(graph, wireFigures(graph, design.basics, design.wireHeatA), design.solver);
  const readings = BANDS.flatMap((band) => {
    const { settledAt } = walk(solver, band);
    return KEY_POSITIONS.map(({ state }): Reading => {
      const before = settledAt.get(state);
      const moment = { state, band, pressed };
      return solver.reading(moment, solver.settle(moment, before?.states ?? solver.cold(), MOMENT_S, before));
    });
  });
  const typical = KEY_POSITIONS.map(({ state }) => readings.find((r) => r.state === state && r.band === 'typical') as Reading);
  return { readings, pins: pinRows(graph, typical, new Map(solver.index.terminals.map((t, i) => [t, i]))) };
}
