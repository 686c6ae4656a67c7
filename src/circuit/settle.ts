import { elementAmps } from './amps.ts';
import { conductance } from './load.ts';
import type { Network } from './network.ts';
import { solveAtRest } from './solve.ts';
import type { Device, Element, Probe, Settled, Solution } from './types.ts';

export interface SettleOptions {
  /** Longest operate or release time that still happens in this step, s. */
  readonly longestS: number;
  /** Volts to start from, by node index. */
  readonly start?: Float64Array | undefined;
  /** What this network was solved for before: where the elements are the very same it stands, else its volts are started from. */
  readonly earlier?: Solved | undefined;
}

type Solved = Pick<Settled, 'elements' | 'solution'>;

/** Elements for given device states; an element that is not different is the same object again, in the same place. */
export type ElementsFor = (on: (deviceId: string) => boolean) => readonly Element[];

interface Rest extends Solved {
  readonly outcome: 'settled' | 'chatters';
  readonly waiting: readonly string[];
  /** Devices that switched in the repeating part, with their counts. */
  readonly cycle: ReadonlyMap<string, number>;
}

const timeOf = (device: Device, isOn: boolean): number => (isOn ? device.releaseS : device.operateS);

/** Devices in the order in which they would switch: shortest time first, then id. */
function bySpeed(states: ReadonlyMap<string, boolean>): (a: Device, b: Device) => number {
  const on = (d: Device): boolean => states.get(d.id) ?? false;
  return (a, b) => timeOf(a, on(a)) - timeOf(b, on(b)) || (a.id < b.id ? -1 : 1);
}

/**
 * Lets relays, under-voltage lock-outs and other two-state devices come to rest: solve, ask each device what it
 * wants, switch the one (or the equals) with the shortest time, solve again. A device absent from `states0` starts off.
 * `chatters`: a set of states came again, or more than 4 n + 10 switches, and nothing slower ends it. `starves`: a converter wants on without
 * its load and off with it, or has no solution when on; it is held off and the rest is settled and reported.
 */
export function settle(
  network: Network,
  elementsFor: ElementsFor,
  devices: readonly Device[],
  states0: ReadonlyMap<string, boolean>,
  options: SettleOptions,
): Settled {
  const states = new Map<string, boolean>(devices.map((d) => [d.id, states0.get(d.id) ?? false]));
  const held = new Set<string>();
  const stopped = new Set<string>();
  let starving: string | null = null;
  let { start, earlier } = options;
  for (;;) {
    const before = new Map(states);
    const rest = comeToRest(network, elementsFor, devices, states, held, options.longestS, start, earlier);
    const { solution, elements, waiting } = rest;
    start = undefined;
    earlier = rest;
    const unsolved = solution.status !== 'solved';
    if (rest.outcome === 'settled' && !unsolved) {
      return { solution, elements, states, outcome: starving ? 'starves' : 'settled', culprit: starving, waiting };
    }
    // Among those that keep switching, or that are on without a solution: what comes of holding one of them off?
    const involved = busiestFirst(devices, before, rest.cycle).filter((d) => !held.has(d.id) && (unsolved ? states.get(d.id) : rest.cycle.has(d.id)));
    const withoutIt = (d: Device): Held => holdOff(network, elementsFor, devices, states, held, d, options.longestS);
    const hungry = involved.find((d) => feedsConverter(d, elementsFor, states) && withoutIt(d) === 'wants on');
    if (hungry) {
      starving ??= hungry.id;
      held.add(hungry.id);
      states.set(hungry.id, false);
      continue;
    }
    const stopper = involved.find((d) => withoutIt(d) !== 'no rest');
    if (unsolved && stopper) {
      // Off it finds a rest and stays off by its own wish; if it still gets there by another way, it is held.
      if (stopped.has(stopper.id)) held.add(stopper.id);
      stopped.add(stopper.id);
      states.set(stopper.id, false);
      continue;
    }
    return { solution, elements, states, outcome: 'chatters', culprit: (stopper ?? involved[0])?.id ?? null, waiting };
  }
}

/**
 * One run of the switching rule on `states` in place; `held` devices do not switch. Devices with one and the same time
 * switch at once when each would also have wanted it after the others, as twenty relays that do not know of each other.
 */
function comeToRest(
  network: Network,
  elementsFor: ElementsFor,
  devices: readonly Device[],
  states: Map<string, boolean>,
  held: ReadonlySet<string>,
  longestS: number,
  start0?: Float64Array,
  earlier?: Solved,
): Rest {
  const on = (id: string): boolean => states.get(id) ?? false;
  const keyOf = (): string => devices.map((d) => (on(d.id) ? '1' : '0')).join('');
  const flip = (list: readonly Device[]): void => {
    for (const d of list) states.set(d.id, !on(d.id));
  };
  const seen = new Map<string, number>([[keyOf(), 0]]);
  const switched: string[] = [];
  const patience = new Set<string>();
  let rest = earlier?.solution.status === 'solved' ? earlier : null;
  let start = start0 ?? rest?.solution.volts;
  let last: readonly Device[] = [];
  for (;;) {
    const elements = elementsFor(on);
    if (!rest || !isSameList(elements, rest.elements)) {
      // What stood behind a contact that has just opened is dead: its old volts lead nowhere.
      if (rest && last.length > 0 && opens(rest.elements, elements)) start = undefined;
      rest = { elements, solution: solveAtRest(network, elements, { start }) };
    }
    const { solution } = rest;
    const probe = probeOf(network, elements, solution, on);
    const wantsBack = (d: Device): boolean => d.wants(probe, on(d.id)) !== on(d.id);
    const isUndecided = (d: Device): boolean => wantsBack(d) || d.wants(probe, !on(d.id)) !== on(d.id);
    if (last.length > 1 && (solution.status !== 'solved' || last.some(isUndecided))) {
      // They do bear on each other: the first goes alone.
      flip(last.slice(1));
      last = last.slice(0, 1);
      continue;
    }
    if (solution.status !== 'solved') return { solution, elements, outcome: 'settled', waiting: [], cycle: new Map() };
    start = solution.volts;
    const willing = devices.filter((d) => !held.has(d.id) && wantsBack(d)).sort(bySpeed(states));
    const waiting = willing.filter((d) => timeOf(d, on(d.id)) > longestS).map((d) => d.id);
    if (last.length > 0) {
      switched.push(...last.map((d) => d.id));
      const key = keyOf();
      const earlier = seen.get(key);
      if (earlier !== undefined || switched.length > 4 * devices.length + 10) {
        const cycle = new Map<string, number>();
        for (const id of switched.slice(earlier ?? 0)) cycle.set(id, (cycle.get(id) ?? 0) + 1);
        // While some hunt, clocks run on: what is slower than they are still gets its turn.
        const patient = willing.find((d) => !cycle.has(d.id) && !patience.has(d.id) && timeOf(d, on(d.id)) <= longestS);
        if (!patient) return { solution, elements, outcome: 'chatters', waiting, cycle };
        patience.add(patient.id);
        seen.clear();
        switched.length = 0;
        last = [patient];
        flip(last);
        continue;
      }
      seen.set(key, switched.length);
    }
    const next = willing.find((d) => timeOf(d, on(d.id)) <= longestS);
    if (!next) return { solution, elements, outcome: 'settled', waiting, cycle: new Map() };
    last = willing.filter((d) => timeOf(d, on(d.id)) === timeOf(next, on(next.id)));
    flip(last);
  }
}

function isSameList(a: readonly Element[], b: readonly Element[]): boolean {
  if (a === b) return true;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return a.length === b.length;
}

function opens(before: readonly Element[], after: readonly Element[]): boolean {
  return after.some((e, k) => {
    const old = before[k]!;
    return e !== old && e.kind === 'resistor' && conductance(e) === 0 && conductance(old) > 0;
  });
}

function probeOf(network: Network, elements: readonly Element[], solution: Solution, on: (id: string) => boolean): Probe {
  return {
    volts: (node) => {
      const k = network.nodeIndex.get(node);
      if (k === undefined) throw new Error(`no node ${node} in this network`);
      return k < 0 ? 0 : solution.volts[k]!;
    },
    amps: (id, port) => {
      const k = network.elementIndex.get(id);
      if (k === undefined) throw new Error(`no element ${id} in this network`);
      return elementAmps(network, elements[k]!, solution, port);
    },
    on,
  };
}

/** Whether a device is the switch of a step-down converter, with the others as they are or all on. */
function feedsConverter(device: Device, elementsFor: ElementsFor, states: ReadonlyMap<string, boolean>): boolean {
  const converters = (isOn: boolean, others: (id: string) => boolean): string =>
    elementsFor((id) => (id === device.id ? isOn : others(id)))
      .map((e) => (e.kind === 'stepdown' ? Number(e.on) : ''))
      .join('');
  const asTheyAre = (id: string): boolean => states.get(id) ?? false;
  return [asTheyAre, () => true].some((others) => converters(true, others) !== converters(false, others));
}

type Held = 'no rest' | 'wants on' | 'stays off';

/** What the rest does with this device held off, and what the device then wants. */
function holdOff(
  network: Network,
  elementsFor: ElementsFor,
  devices: readonly Device[],
  states: ReadonlyMap<string, boolean>,
  held: ReadonlySet<string>,
  device: Device,
  longestS: number,
): Held {
  const trial = new Map(states).set(device.id, false);
  const rest = comeToRest(network, elementsFor, devices, trial, new Set(held).add(device.id), longestS);
  if (rest.outcome !== 'settled' || rest.solution.status !== 'solved') return 'no rest';
  const on = (id: string): boolean => trial.get(id) ?? false;
  return device.wants(probeOf(network, elementsFor(on), rest.solution, on), false) ? 'wants on' : 'stays off';
}

/** The devices, those that switched most often in the cycle first; ties: the faster, then id. */
function busiestFirst(devices: readonly Device[], states: ReadonlyMap<string, boolean>, cycle: ReadonlyMap<string, number>): Device[] {
  const count = (d: Device): number => cycle.get(d.id) ?? 0;
  return [...devices].sort((a, b) => count(b) - count(a) || bySpeed(states)(a, b));
}
