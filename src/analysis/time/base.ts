import type { Element } from '../../circuit/types.ts';
import type { Plan } from '../../plan/types.ts';
import { wireFigures } from '../figures.ts';
import { type Graph, regraph } from '../graph.ts';
import { designCurrents, type Known } from '../index.ts';
import type { WireFigures } from '../network.ts';
import { Solver } from '../readings.ts';

/** What every calculation in time of one plan stands on. */
export interface TimeBase {
  readonly graph: Graph;
  readonly solver: Solver;
  /** Where the battery's source stands among the elements. */
  readonly batteryAt: number;
  readonly batteryId: string;
  readonly figures: ReadonlyMap<string, WireFigures>;
}

/**
 * @param plan with every automatic value filled in
 * @param known what was found on the way there, when it is at hand
 */
export function timeBase(plan: Plan, known?: Known): TimeBase {
  const design = known?.design ?? designCurrents(plan);
  const graph = regraph(design.graph, plan);
  const figures = wireFigures(graph, design.basics, design.wireHeatA);
  return laid(graph, figures, new Solver(graph, figures, design.solver));
}

/**
 * The same with a network that nothing has been solved with: the order in which rows are eliminated is kept from one
 * solution to the next, and what comes twice must come out the same to the last digit.
 */
export function untouched({ graph, figures }: TimeBase): TimeBase {
  return laid(graph, figures, new Solver(graph, figures));
}

function laid(graph: Graph, figures: TimeBase['figures'], solver: Solver): TimeBase {
  const elements = solver.elementsOf({ state: 'OFF_ASLEEP', band: 'typical' }, new Map());
  const batteryAt = elements.findIndex(isBattery);
  return { graph, solver, batteryAt, batteryId: elements[batteryAt]!.id, figures };
}

/** The one source between the battery's posts: the plan's battery, or the one that stands in where it has none. */
export function isBattery(e: Element): boolean {
  return e.kind === 'source' && e.a === 'battery' && e.b === '0';
}
