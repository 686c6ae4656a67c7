import { allAmps, compile, type Network, settle } from '../circuit/index.ts';
import type { Element, Settled } from '../circuit/types.ts';
import type { Band, VehicleState } from '../plan/types.ts';
import { supplyCorners } from '../trade/supply.ts';
import type { Graph } from './graph.ts';
import { type Moment, NetworkMaker, type WireFigures, wireElement } from './network.ts';
import type { Reading, ReadingIndex } from './types.ts';

/** The canonical walk: a reading for a state is where this walk has come to, and OFF_ASLEEP is its end. */
const WALK: readonly VehicleState[] = ['OFF_ASLEEP', 'OFF_AWAKE', 'ACC', 'RUN_STOPPED', 'START', 'RUN_CHARGING', 'RETAIN', 'RETAIN_DOOR', 'OFF_ASLEEP'];
export const BANDS: readonly Band[] = ['low', 'typical', 'high'];
/** In these states delays still hold: the reading is taken just after the move. */
const JUST_AFTER: ReadonlySet<VehicleState> = new Set<VehicleState>(['START', 'RETAIN', 'RETAIN_DOOR', 'AUTO_CRANK']);
/** Anything slower than this has not happened "just after" a move, s. */
export const MOMENT_S = 1;

/** Solves one plan at moments, keeping the network's structure between them. */
export class Solver {
  readonly maker: NetworkMaker;
  readonly network: Network;
  readonly index: ReadingIndex;
  private readonly compiled: readonly Element[];
  private readonly devices: readonly string[];
  private readonly nodeOf: Int32Array;
  /** Element behind each entry of `index.elements`, and whether its second port is meant. */
  private readonly elementRefs: Int32Array;
  private readonly isSecond: Uint8Array;
  private readonly wireRefs: Int32Array;

  /** @param earlier solver of the same plan with other values, whose structure is taken over where it is the same */
  constructor(
    readonly graph: Graph,
    figures: ReadonlyMap<string, WireFigures>,
    earlier?: Solver,
  ) {
    this.maker = new NetworkMaker(graph, figures);
    const first = this.maker.at({ state: 'OFF_ASLEEP', band: 'typical' });
    const elements = first.elements(() => false);
    this.compiled = elements;
    this.network = earlier && isAlike(earlier.compiled, elements) ? earlier.network : compile(elements);
    this.devices = first.devices.map((d) => d.id);
    const terminals = graph.nodes.filter((n) => n.includes('.'));
    this.nodeOf = Int32Array.from(terminals, (t) => this.network.nodeIndex.get(t) ?? -2);
    const refs: { at: number; port: string | undefined; name: string }[] = [];
    elements.forEach((e, at) => {
      if (e.id.startsWith('~')) return;
      for (const port of portsOf(e)) refs.push({ at, port, name: port ? `${e.id}:${port}` : e.id });
    });
    this.elementRefs = Int32Array.from(refs, (r) => r.at);
    this.isSecond = Uint8Array.from(refs, (r) => (r.port === 'out' ? 1 : 0));
    const at = this.network.elementIndex;
    const wires = graph.wires.map((w) => w.id).filter((id) => at.has(wireElement(id)));
    this.wireRefs = Int32Array.from(wires, (id) => at.get(wireElement(id))!);
    this.index = { terminals, wires, elements: refs.map((r) => r.name), devices: this.devices };
  }

  /** All devices off, as at the walk's beginning. */
  cold(): Map<string, boolean> {
    return new Map(this.devices.map((d) => [d, false]));
  }

  /** Everything off and no volts anywhere: where one begins that knows nothing to be live. */
  dead(): Before {
    const volts = new Float64Array(this.network.nodes.length);
    return { states: this.cold(), elements: [], solution: { status: 'solved', volts, floating: new Set(), worstNode: null, iterations: 0 } };
  }

  /** Lets the devices settle at a moment from the given states; `start` is a solution nearby, to begin from. */
  settle(moment: Moment, states: ReadonlyMap<string, boolean>, longestS?: number, start?: Before): Settled {
    const instant = this.maker.at(moment);
    return settle(this.network, (on) => instant.elements(on), instant.devices, states, {
      longestS: longestS ?? (JUST_AFTER.has(moment.state) ? MOMENT_S : Number.POSITIVE_INFINITY),
      earlier: start,
    });
  }

  elementsOf(moment: Moment, states: ReadonlyMap<string, boolean>): readonly Element[] {
    return this.maker.at(moment).elements((d) => states.get(d) ?? false);
  }

  /** The settled network as the plain arrays that rules and faces read. */
  reading(moment: Moment, settled: Settled): Reading {
    const { solution, elements, states } = settled;
    const bad = solution.status !== 'solved' ? solution.status : settled.outcome !== 'settled' ? settled.outcome : null;
    const computed = isComputed(settled);
    const terminalV = new Float64Array(this.nodeOf.length);
    const { volts, floating } = solution;
    for (let i = 0; i < terminalV.length; i++) {
      const node = this.nodeOf[i]!;
      if (node === -1) continue;
      terminalV[i] = node === -2 || !computed || (floating.size > 0 && floating.has(node)) ? Number.NaN : volts[node]!;
    }
    const wireA = new Float64Array(this.wireRefs.length);
    const elementA = new Float64Array(this.elementRefs.length);
    if (computed) {
      const { first, second } = allAmps(this.network, elements, solution);
      for (let i = 0; i < wireA.length; i++) wireA[i] = first[this.wireRefs[i]!]!;
      for (let i = 0; i < elementA.length; i++) elementA[i] = (this.isSecond[i] ? second : first)[this.elementRefs[i]!]!;
    } else {
      wireA.fill(Number.NaN);
      elementA.fill(Number.NaN);
    }
    return {
      state: moment.state,
      band: moment.band,
      status: computed ? 'solved' : 'not computed',
      trouble: bad ? { kind: bad, where: settled.culprit ?? solution.worstNode ?? '' } : null,
      terminalV,
      wireA,
      elementA,
      deviceOn: Uint8Array.from(this.devices, (d) => (states.get(d) ? 1 : 0)),
      waiting: settled.waiting,
    };
  }
}

/** What a moment is entered from. */
export type Before = Pick<Settled, 'states' | 'elements' | 'solution'>;

/** Whether figures may be read from what has settled: what chatters has no rest, wherever it was stopped. */
export function isComputed(settled: Settled): boolean {
  return settled.solution.status === 'solved' && settled.outcome !== 'chatters';
}

/** One band's walk. */
export interface Walked {
  readonly readings: readonly Reading[];
  readonly statesAt: ReadonlyMap<VehicleState, ReadonlyMap<string, boolean>>;
  /** Where devices and volts have come to at each vehicle state, for later questions. */
  readonly settledAt: ReadonlyMap<VehicleState, Settled>;
}

/** Walks the key once round in one band, then visits the states that this vehicle has besides. */
export function walk(solver: Solver, band: Band): Walked {
  const vehicle = solver.graph.plan.vehicle;
  const byState = new Map<VehicleState, Reading>();
  const settledAt = new Map<VehicleState, Settled>();
  const visit = (state: VehicleState, before?: Before): Settled => {
    const settled = solver.settle({ state, band }, before?.states ?? solver.cold(), undefined, before);
    byState.set(state, solver.reading({ state, band }, settled));
    settledAt.set(state, settled);
    return settled;
  };
  let last: Settled | undefined;
  for (const state of WALK) last = visit(state, last);
  // With the battery off the volts of the state before would only mislead Newton.
  visit('ISOLATED', solver.dead());
  if (vehicle.stopStart) visit('AUTO_CRANK', visit('AUTO_STOP', settledAt.get('RUN_CHARGING')));
  if (vehicle.remoteStart) visit('REMOTE_RUN', settledAt.get('OFF_ASLEEP'));
  if (vehicle.electrified) visit('PARKED_CHARGE', settledAt.get('OFF_ASLEEP'));
  if (vehicle.isolator) visit('ISOLATED_RUNNING', settledAt.get('RUN_CHARGING'));
  return { readings: [...byState.values()], statesAt: new Map([...settledAt].map(([state, { states }]) => [state, states])), settledAt };
}

/** The V_lo design corner: key on, everything that can run is up, at the lowest supply one designs for. */
export function designCorner(
  solver: Solver,
  upStates: ReadonlyMap<string, boolean>,
  load: 'heavy' | 'typical',
  start?: Settled,
): { moment: Moment; settled: Settled } {
  const { systemV, dipLevel } = solver.graph.plan.vehicle;
  const { loV, chargeV } = supplyCorners(systemV, dipLevel);
  const moment: Moment = { state: 'RUN_STOPPED', band: 'low', supplyV: loV, load };
  // What has cut off a low battery carries its load again once that is charged: wires and fuses are chosen for then.
  const hasCut = [...upStates].some(([id, on]) => on && id.endsWith(':cut'));
  const states = new Map(hasCut ? solver.settle({ ...moment, band: 'typical', supplyV: chargeV }, upStates).states : upStates);
  for (const id of states.keys()) {
    if (!id.endsWith(':halted')) continue;
    const part = id.slice(0, -'halted'.length);
    states.set(id, false).set(`${part}booted`, states.get(`${part}powered`) ?? false);
  }
  return { moment, settled: solver.settle(moment, states, MOMENT_S, start) };
}

/** Devices that end otherwise when a key position is entered straight from parked. */
export function dependsOnHistory(solver: Solver, walked: Walked, band: Band): string[] {
  const differing = new Set<string>();
  const parked = walked.settledAt.get('OFF_ASLEEP')!;
  for (const [before, state] of [
    ['OFF_AWAKE', 'ACC'],
    ['ACC', 'RUN_STOPPED'],
    ['START', 'RUN_CHARGING'],
  ] as const) {
    const through = walked.settledAt.get(before)!.states;
    // Where the state before left everything as it is when parked, the walk itself was the direct way.
    if ([...through].every(([id, on]) => on === (parked.states.get(id) ?? false))) continue;
    const direct = solver.settle({ state, band }, parked.states, undefined, parked);
    for (const [id, on] of direct.states) if (on !== walked.settledAt.get(state)!.states.get(id)) differing.add(id);
  }
  return [...differing].sort();
}

function portsOf(e: Element): readonly (string | undefined)[] {
  if (e.kind === 'opto') return ['led', 'out'];
  if (e.kind === 'stepdown' || e.kind === 'linear') return ['in', 'out'];
  return [undefined];
}

/** Same elements between the same nodes, whatever their figures. */
function isAlike(a: readonly Element[], b: readonly Element[]): boolean {
  return a.length === b.length && a.every((e, k) => e === b[k] || (e.id === b[k]!.id && e.kind === b[k]!.kind && nodesOf(e) === nodesOf(b[k]!)));
}

function nodesOf(e: Element): string {
  if (e.kind === 'opto') return `${e.a} ${e.k} ${e.c} ${e.e}`;
  if (e.kind === 'stepdown' || e.kind === 'linear') return `${e.in} ${e.gnd} ${e.out}`;
  return `${e.a} ${e.b}`;
}
