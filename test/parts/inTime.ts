import { compile } from '../../src/circuit/network.ts';
import { transient } from '../../src/circuit/time/index.ts';
import type { Element } from '../../src/circuit/types.ts';
import type { Behaviour } from '../../src/parts/types.ts';

/** A part's run in time: what switched when, and volts of nodes at a time. */
export interface Told {
  readonly events: readonly { readonly tS: number; readonly device: string; readonly on: boolean }[];
  /** When a device first switched that way after a time, s; NaN when it never did. */
  when(device: string, on: boolean, afterS?: number): number;
  volts(node: string, tS: number): number;
  amps(element: string, tS: number): number;
  /** Least volts of a node from one time to another. */
  leastV(node: string, fromS: number, toS: number): number;
  isOn(device: string): boolean;
}

export interface Story {
  /** What stands round the part at a time; the same elements always, levels between breaks steady or straight. */
  readonly around: (tS: number) => readonly Element[];
  readonly breaks: readonly number[];
  readonly untilS: number;
  readonly nodes: readonly string[];
  readonly elements?: readonly string[];
  /** Devices that are on at the start. */
  readonly on?: readonly string[];
  /** Volts across capacitors at the start. */
  readonly charge?: Readonly<Record<string, number>>;
}

/** Follows parts on the bench in time. */
export function follow(make: (on: (id: string) => boolean) => Behaviour, story: Story): Told {
  const known = new Map<string, Behaviour>();
  const ids = (make(() => false).devices ?? []).map((d) => d.id);
  const at = (on: (id: string) => boolean): Behaviour => {
    const key = ids.map((id) => (on(id) ? '1' : '0')).join('');
    const found = known.get(key) ?? make(on);
    known.set(key, found);
    return found;
  };
  const elements = (on: (id: string) => boolean, tS: number): Element[] => [...story.around(tS), ...at(on).elements];
  const watched = story.elements ?? [];
  const trace = transient(
    compile(elements(() => false, 0)),
    { elements, devices: at(() => false).devices ?? [], breaks: story.breaks },
    {
      untilS: story.untilS,
      states: new Map(ids.map((id) => [id, story.on?.includes(id) ?? false])),
      watch: { nodes: story.nodes, elements: watched.map((id) => ({ id })) },
      ...(story.charge ? { charge: new Map(Object.entries(story.charge)) } : {}),
    },
  );
  if (trace.outcome !== 'done') throw new Error(`${trace.outcome} at ${trace.stuck?.tS} s, ${trace.stuck?.node}`);
  const value = (list: Float64Array | undefined, tS: number): number => {
    if (!list) return Number.NaN;
    const k = trace.tS.findLastIndex((t) => t <= tS);
    const next = trace.tS[k + 1];
    const from = trace.tS[k]!;
    if (next === undefined || next === from) return list[k]!;
    return list[k]! + ((list[k + 1]! - list[k]!) * (tS - from)) / (next - from);
  };
  return {
    events: trace.events,
    when: (device, on, afterS = 0) => trace.events.find((e) => e.device === device && e.on === on && e.tS >= afterS)?.tS ?? Number.NaN,
    volts: (node, tS) => value(trace.volts[story.nodes.indexOf(node)], tS),
    amps: (element, tS) => value(trace.amps[watched.indexOf(element)], tS),
    leastV: (node, fromS, toS) => Math.min(...trace.volts[story.nodes.indexOf(node)]!.filter((_, k) => trace.tS[k]! >= fromS && trace.tS[k]! <= toS)),
    isOn: (device) => trace.states.get(device) ?? false,
  };
}

/** A source that jumps: volts from each time on. */
export function jumping(...steps: readonly (readonly [fromS: number, volt: number])[]): {
  readonly volt: (tS: number) => number;
  readonly breaks: readonly number[];
} {
  return { volt: (tS) => steps.findLast(([fromS]) => fromS <= tS)?.[1] ?? steps[0]![1], breaks: steps.map(([fromS]) => fromS).filter((t) => t > 0) };
}
