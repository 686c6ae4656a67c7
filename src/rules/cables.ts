import type { Facts, PartView, Step, TerminalKey } from '../analysis/factsTypes.ts';
import type { LoadFact } from '../parts/types.ts';
import type { Wire } from '../plan/types.ts';
import { once } from './once.ts';
import { converters, vehicleRail } from './rails.ts';
import { along } from './taps.ts';

/** A USB lead from a port that feeds it, over hubs without a supply of their own, to what hangs on it. */
export interface UsbLead {
  readonly port: TerminalKey;
  /** What the port is on: a computer, or a hub that has its own 5 V. */
  readonly host: PartView;
  readonly device: PartView;
  readonly at: TerminalKey;
  readonly wires: readonly Wire[];
  readonly cables: readonly PartView[];
  /** The plain cable before the device: a hub sends everything on afresh, so its length begins there. */
  readonly run: UsbRun;
}

export interface UsbRun {
  /** Where it begins: the host, or the last hub. */
  readonly from: PartView;
  readonly wires: readonly Wire[];
  readonly cables: readonly PartView[];
  /** Conductor from plug to plug, m. What joins a drawn cable to its ends is no more than its plugs. */
  readonly lengthM: number;
}

/** Has it a 5 V of its own, so that what hangs on it is nothing to the computer's ports? */
export function isPoweredHub(view: PartView): boolean {
  return view.kind.kind === 'usb-hub' && view.s.flag('ownSupply');
}

/** Every USB lead of the plan: those of the computers in the order of their ports, then those of hubs with their own 5 V. */
export const usbLeads = once((facts): readonly UsbLead[] =>
  [...facts.ofKind('computer'), ...facts.ofKind('usb-hub').filter(isPoweredHub)].flatMap((host) =>
    host.terminals
      .filter((t) => t.form === 'usb' && t.flow === 'out')
      .flatMap((t) => (facts.isWired(`${host.part.id}.${t.id}`) ? leadsOf(facts, host, `${host.part.id}.${t.id}`) : [])),
  ),
);

function leadsOf(facts: Facts, host: PartView, port: TerminalKey): UsbLead[] {
  return [...facts.reach(port, ['conductor'], isPoweredHub)].flatMap(([at, steps]) => {
    const hit = facts.at(at);
    if (hit?.terminal.form !== 'usb' || hit.terminal.flow !== 'in' || hit.view.kind.kind === 'usb-cable' || steps.length === 0) return [];
    return [{ port, host, device: hit.view, at, wires: along(facts, steps).wires, cables: cablesOf(steps), run: lastRun(facts, host, steps) }];
  });
}

function cablesOf(steps: readonly Step[]): PartView[] {
  return [...new Set(steps.map((s) => s.through))].filter((v): v is PartView => v?.kind.kind === 'usb-cable');
}

function lastRun(facts: Facts, host: PartView, all: readonly Step[]): UsbRun {
  const hub = all.findLastIndex((s) => s.through?.kind.kind === 'usb-hub');
  const steps = all.slice(hub + 1);
  const { wires } = along(facts, steps);
  const cables = cablesOf(steps);
  const plugs = new Set(cables.map((c) => c.part.id));
  const inWires = wires.filter((w) => !plugs.has(w.from.part) && !plugs.has(w.to.part));
  const lengthM = inWires.reduce((sum, w) => sum + facts.wireLengthM(w.id), 0) + cables.reduce((sum, c) => sum + c.s.num('lengthM'), 0);
  return { from: all[hub]?.through ?? host, wires, cables, lengthM };
}

/** Our wires from whatever feeds a load (the vehicle, or a converter) to it, and home again to the body, battery or converter. */
export function supplyWires(facts: Facts, view: PartView, load: LoadFact): Wire[] {
  const plus = `${view.part.id}.${load.plus}`;
  return [...new Set([...along(facts, wayTo(facts, view, plus)).wires, ...homeWires(facts, `${view.part.id}.${load.minus}`)])];
}

function wayTo(facts: Facts, view: PartView, plus: TerminalKey): readonly Step[] {
  const way = vehicleRail(facts).get(plus);
  if (way) return way.steps;
  for (const c of converters(facts)) {
    const steps = c.view === view ? undefined : facts.reach(c.outKey, ['fuse', 'contact', 'conductor', 'diode']).get(plus);
    if (steps) return steps;
  }
  return [];
}

const HOME: ReadonlySet<string> = new Set(['chassis-ground', 'battery', 'step-down', 'linear-regulator']);

function homeWires(facts: Facts, minus: TerminalKey): Wire[] {
  for (const [key, steps] of facts.reach(minus, ['conductor', 'contact'], (v) => v.kind.kind === 'chassis-ground')) {
    if (steps.length > 0 && HOME.has(facts.at(key)?.view.kind.kind ?? '')) return along(facts, steps).wires;
  }
  return [];
}
