import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { boardOf, type PinMode, pinMode } from '../parts/computer/settings.ts';
import { wiresOn } from '../plan/connect.ts';
import { gather } from '../plan/gather.ts';
import type { Wire } from '../plan/types.ts';
import { HEADER, type HeaderPin } from '../trade/header.ts';
import { LOGIC, type LogicFacts, RAIL3 } from '../trade/logic.ts';
import { once } from './once.ts';
import { grounded, isResistor, netAt, partsOn, railV, waysFrom } from './trace.ts';

/** A resistor up to this size in line with a pin does not hide what is behind it; a larger one is a pull, ohm. */
export const IN_LINE_OHM = 4700;

/** One wired GPIO cell of a computer. */
export interface PinUse {
  readonly computer: PartView;
  readonly cell: HeaderPin;
  readonly gpio: number;
  readonly key: string;
  /** Wires on the cell; the first stands for the pin in findings. */
  readonly wires: readonly Wire[];
  readonly wire: Wire;
  readonly mode: PinMode;
  readonly logic: LogicFacts;
  /** Nets that the pin sees through wires and in-line resistors, its own included; rails and grounds are not among them. */
  readonly nets: ReadonlySet<number>;
}

/** Every wired GPIO cell of every computer, in header order. */
export const pinUses = once((facts): readonly PinUse[] => {
  const taken = new Set<string>();
  return facts.ofKind('computer').flatMap((computer) => HEADER.flatMap((cell) => useOf(facts, computer, cell, taken) ?? []));
});

interface PinIndex {
  readonly byNet: ReadonlyMap<number, readonly PinUse[]>;
  readonly bySeen: ReadonlyMap<number, readonly PinUse[]>;
  readonly byKey: ReadonlyMap<string, PinUse>;
}

const pinIndex = once((facts): PinIndex => {
  const byNet = new Map<number, PinUse[]>();
  const bySeen = new Map<number, PinUse[]>();
  for (const use of pinUses(facts)) {
    gather(byNet, facts.netOf(use.key), use);
    for (const net of use.nets) gather(bySeen, net, use);
  }
  return { byNet, bySeen, byKey: new Map(pinUses(facts).map((u) => [u.key, u])) };
});

/** Wired GPIO cells on a net, in header order. */
export function pinUsesOn(facts: Facts, net: number): readonly PinUse[] {
  return pinIndex(facts).byNet.get(net) ?? [];
}

/** Wired GPIO cells that see a net, directly or over in-line resistors, in header order. */
export function pinUsesSeeing(facts: Facts, net: number): readonly PinUse[] {
  return pinIndex(facts).bySeen.get(net) ?? [];
}

/** The use of one GPIO cell, `p3.36`; undefined when nothing is wired to it. */
export function pinUseAt(facts: Facts, key: string): PinUse | undefined {
  return pinIndex(facts).byKey.get(key);
}

/** A wire from pin to pin stands for the first of them only, so that nothing is said twice of it. */
function useOf(facts: Facts, computer: PartView, cell: HeaderPin, taken: Set<string>): PinUse | null {
  if (cell.gpio === null) return null;
  const wires = wiresOn(facts.plan, computer.part.id, `${cell.pin}`);
  const wire = wires.find((w) => !taken.has(w.id));
  if (!wire) return null;
  taken.add(wire.id);
  const net = netAt(facts, computer, `${cell.pin}`);
  return {
    computer,
    cell,
    gpio: cell.gpio,
    key: `${computer.part.id}.${cell.pin}`,
    wires,
    wire,
    mode: pinMode(computer.s, cell.gpio),
    logic: LOGIC[boardOf(computer.s).logic],
    nets: nearNets(facts, net),
  };
}

/** A net and those beyond in-line resistors; rails and grounds end the search and are left out. */
export function nearNets(facts: Facts, net: number): ReadonlySet<number> {
  const fixed = (n: number): boolean => railV(facts, n) !== null || grounded(facts, n);
  const ways = waysFrom(facts, net, (h) => isResistor(h) && h.ohm <= IN_LINE_OHM, fixed);
  return new Set([net, ...[...ways].filter(([n, way]) => !fixed(n) && way.ohm <= IN_LINE_OHM).map(([n]) => n)]);
}

/** "GPIO 17 (pin 11)". */
export function pinName(use: Pick<PinUse, 'gpio' | 'cell'>): string {
  return `GPIO ${use.gpio} (pin ${use.cell.pin})`;
}

/** Parts that move the pin: optocoupler outputs, buttons and switches, in order of making. */
export function moversOf(facts: Facts, use: PinUse): readonly PartView[] {
  const known = moverCache.get(use);
  if (known) return known;
  const found = new Set<PartView>();
  for (const net of use.nets) {
    for (const { view, terminal } of partsOn(facts, net)) {
      const kind = view.kind.kind;
      if (kind === 'push-button' || kind === 'master-switch' || (kind === 'optocoupler' && (terminal === 'C' || terminal === 'E'))) found.add(view);
    }
  }
  const movers = [...found];
  moverCache.set(use, movers);
  return movers;
}

const CONTACTS: ReadonlySet<string> = new Set(['30', '87', '87a']);

/** Relays with a contact at the pin. */
export function relaysAt(facts: Facts, use: PinUse): readonly PartView[] {
  const at = [...use.nets].flatMap((net) => partsOn(facts, net));
  return [...new Set(at.filter((p) => p.view.kind.kind === 'relay' && CONTACTS.has(p.terminal)).map((p) => p.view))];
}

const moverCache = new WeakMap<PinUse, readonly PartView[]>();

/** A resistor from the pin's nets to a fixed voltage. */
export interface Pull {
  readonly view: PartView;
  /** The terminal at the fixed voltage. */
  readonly end: string;
  readonly net: number;
  /** Volts there: 0, 3.3, 5, 12, 24. */
  readonly volt: number;
}

/** Resistors from these nets to ground or a rail. */
export function pullsOn(facts: Facts, nets: ReadonlySet<number>): readonly Pull[] {
  const list: (Pull & { readonly at: number })[] = [];
  for (const near of nets) {
    for (const { view, end, net, at } of resistorsOn(facts).get(near) ?? []) {
      if (nets.has(net)) continue;
      const volt = grounded(facts, net) ? 0 : railV(facts, net);
      if (volt !== null) list.push({ view, end, net, volt, at });
    }
  }
  return list.sort((a, b) => a.at - b.at);
}

/** A resistor as it is seen from one of its nets: its other end, and its place among the resistors. */
type Far = Pick<Pull, 'view' | 'end' | 'net'> & { readonly at: number };

const resistorsOn = once((facts): ReadonlyMap<number, readonly Far[]> => {
  const map = new Map<number, Far[]>();
  facts.ofKind('resistor').forEach((view, at) => {
    const [one, two] = [netAt(facts, view, '1'), netAt(facts, view, '2')];
    gather(map, one, { view, end: '2', net: two, at });
    gather(map, two, { view, end: '1', net: one, at });
  });
  return map;
});

/** Resistors side by side, each with its factor of tolerance, ohm; Infinity for none. */
export function parallelOhm(views: readonly PartView[], way: 'least' | 'most'): number {
  const sum = views.reduce((s, v) => s + 1 / (v.s.num('ohm') * (1 + (way === 'least' ? -1 : 1) * v.s.num('tol'))), 0);
  return sum === 0 ? Number.POSITIVE_INFINITY : 1 / sum;
}

/** The board's own pull at a pin in its set mode, and resistors soldered to it, least and most, ohm; Infinity for none. */
export function insidePull(use: Pick<PinUse, 'cell' | 'mode' | 'logic'>, way: 'up' | 'down'): { readonly least: number; readonly most: number } {
  const on = use.mode === (way === 'up' ? 'in-up' : 'in-down');
  const soldered = way === 'up' ? (use.cell.fixedPullUpOhm ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  const both = (inside: number, fixed: number): number => 1 / (1 / inside + 1 / fixed);
  const none = Number.POSITIVE_INFINITY;
  return { least: both(on ? use.logic.pullMinOhm : none, soldered), most: both(on ? use.logic.pullMaxOhm : none, soldered) };
}

/** Is this fixed voltage the computer's 3.3 V? */
export function isRail3(volt: number): boolean {
  return Math.abs(volt - RAIL3.typicalV) < 0.05;
}
