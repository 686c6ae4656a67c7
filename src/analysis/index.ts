import type { Settled } from '../circuit/types.ts';
import type { Band, Id, Plan } from '../plan/types.ts';
import { arrivals } from './arrivals.ts';
import { type WireBasics, wireBasics, wireFigures } from './figures.ts';
import { type FaultPaths, faultPaths, fuseReports } from './fuses.ts';
import { buildGraph, type Graph, nodeName, regraph } from './graph.ts';
import type { Moment } from './network.ts';
import { pinRows } from './pins.ts';
import { loadRows, type PartWatts, parkedReport, partWatts } from './power.ts';
import { type Ends, Protection } from './protection.ts';
import { BANDS, dependsOnHistory, designCorner, Solver, type Walked, walk } from './readings.ts';
import { wireEnds } from './returns.ts';
import { type NetNature, natures } from './roles.ts';
import { type Analysis, KEY_POSITIONS, type Reading } from './types.ts';
import { wireReports } from './wires.ts';

/** What analysis knows besides the plain results: kept for rules. */
export interface Groundwork {
  readonly graph: Graph;
  readonly basics: ReadonlyMap<Id, WireBasics>;
  readonly natures: readonly NetNature[];
  readonly paths: FaultPaths;
}

/** Currents at the V_lo design corner: what sizes and fuses are chosen by, and what was built to find them. */
export interface DesignCurrents {
  readonly graph: Graph;
  readonly basics: ReadonlyMap<Id, WireBasics>;
  readonly natures: readonly NetNature[];
  readonly solver: Solver;
  readonly wireHeatA: ReadonlyMap<Id, number>;
  /** Solved when it is first asked for. */
  wirePeakA(): ReadonlyMap<Id, number>;
  readonly elementHeatA: ReadonlyMap<string, number>;
}

/**
 * Currents at the design corner alone, for choosing sizes and fuses before the full analysis.
 * @param plan with definite pins; sizes may be absent (1 mm2 is taken).
 * @param graph of that plan, and what its nets are for
 */
export function designCurrents(plan: Plan, graph: Graph = buildGraph(plan), nature: readonly NetNature[] = natures(graph)): DesignCurrents {
  const basics = wireBasics(graph);
  const solver = new Solver(graph, wireFigures(graph, basics));
  const up = upStates(solver);
  const heat = corner(solver, up, 'typical');
  let peakA: ReadonlyMap<Id, number> | null = null;
  return {
    graph,
    basics,
    natures: nature,
    solver,
    wireHeatA: wireAmps(solver, heat.reading),
    wirePeakA: () => {
      peakA ??= wireAmps(solver, corner(solver, up, 'heavy').reading);
      return peakA;
    },
    elementHeatA: new Map(solver.index.elements.map((e, i) => [e, Math.abs(heat.reading.elementA[i]!) || 0])),
  };
}

/** Size of the current in every wire, A; 0 where it is not computed. */
function wireAmps(solver: Solver, reading: Reading): Map<Id, number> {
  return new Map(solver.index.wires.map((id, i) => [id, Math.abs(reading.wireA[i]!) || 0]));
}

interface Corner {
  readonly moment: Moment;
  readonly settled: Settled;
  readonly reading: Reading;
}

/** The network with the key at Ignition, typical band: the way there, without the rest of the walk. */
function upStates(solver: Solver): Settled {
  let settled = solver.settle({ state: 'OFF_ASLEEP', band: 'typical' }, solver.cold());
  for (const state of ['ACC', 'RUN_STOPPED'] as const) settled = solver.settle({ state, band: 'typical' }, settled.states, undefined, settled);
  return settled;
}

function corner(solver: Solver, up: Settled, load: 'heavy' | 'typical'): Corner {
  const { moment, settled } = designCorner(solver, up.states, load, up);
  return { moment, settled, reading: solver.reading(moment, settled) };
}

/** What was found on the way to a filled plan and holds for it still. */
export interface Known {
  readonly design: DesignCurrents;
  readonly endsOf: (edge: number) => Ends;
}

/** Figures that take solves of their own: the worst corners over tolerances, and what a direct entry into a state changes. */
export type LateFigures = Pick<Analysis, 'arrivals' | 'dependsOnHistory'>;

/**
 * Answers the fitter's questions about one filled plan: readings in every state and band, wires, fuses, what arrives,
 * parked draw, loads and pins. Pure; the groundwork is handed back for rules.
 */
export function analyse(plan: Plan, known?: Known): { analysis: Analysis; groundwork: Groundwork } {
  const { analysis, groundwork, late } = analyseFirst(plan, known);
  return { analysis: { ...analysis, ...late() }, groundwork };
}

/** The same without the late figures (no worst volts, no history), which are worked out when they are asked for. */
export function analyseFirst(plan: Plan, known?: Known): { analysis: Analysis; groundwork: Groundwork; late(): LateFigures } {
  const first = known?.design ?? designCurrents(plan);
  const { basics, natures: nature } = first;
  const graph = regraph(first.graph, plan);
  const solver = new Solver(graph, wireFigures(graph, basics, first.wireHeatA), first.solver);
  const walks = Object.fromEntries(BANDS.map((band) => [band, walk(solver, band)])) as Record<Band, Walked>;
  // In the low band a cut-out has opened by design; what it carries while it is closed is asked here.
  const up = walks.typical.settledAt.get('RUN_STOPPED')!;
  const heat = corner(solver, up, 'typical');
  const design = corner(solver, up, 'heavy');
  const heatA = wireAmps(solver, heat.reading);
  const figures = wireFigures(graph, basics, heatA);
  const readings = BANDS.flatMap((band) => walks[band].readings);
  const endsOf = known?.endsOf ?? wireEnds(graph, new Protection(graph), nature);
  const paths = faultPaths(graph, figures, basics);
  const terminalAt = new Map(solver.index.terminals.map((t, i) => [t, i]));
  const typicalAt = KEY_POSITIONS.map((k) => walks.typical.readings.find((r) => r.state === k.state)!);
  const wattsAt = KEY_POSITIONS.map((k) => watts(solver, walks.typical, k.state));
  const arriving = arrivals({ graph, solver, walks, design });
  const analysis: Analysis = {
    index: solver.index,
    readings,
    design: design.reading,
    wires: wireReports({ graph, basics, figures, natures: nature, endsOf, index: solver.index, readings, design: design.reading, heatA }),
    fuses: fuseReports(graph, paths, basics, solver.index, { peak: design.reading, heat: heat.reading }),
    arrivals: arriving.typical,
    parked: parkedReport(graph, wattsAt[0]!, solver.maker.supply('OFF_ASLEEP', 'typical')),
    loads: loadRows(graph, wattsAt, (part, plus, minus, k) => {
      const view = graph.views.get(part)!;
      const at = (t: string): number => typicalAt[k]!.terminalV[terminalAt.get(nodeName(view, t)) ?? -1] ?? Number.NaN;
      return at(plus) - at(minus);
    }),
    pins: pinRows(graph, typicalAt, terminalAt),
    dependsOnHistory: [],
  };
  return {
    analysis,
    groundwork: { graph, basics, natures: nature, paths },
    late: () => ({ arrivals: arriving.worst(), dependsOnHistory: dependsOnHistory(solver, walks.typical, 'typical') }),
  };
}

function watts(solver: Solver, walked: Walked, state: (typeof KEY_POSITIONS)[number]['state']): PartWatts | null {
  const settled = walked.settledAt.get(state)!;
  return partWatts(solver.network, settled.elements, settled);
}
