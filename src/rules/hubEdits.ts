import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { supplyPair } from '../parts/computer/facts.ts';
import { wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import { listed } from '../plan/listed.ts';
import type { End, Id, Plan } from '../plan/types.ts';
import { BLADE_RATINGS_A } from '../trade/fuses.ts';
import { USB_DEVICES } from '../trade/loads.ts';
import { USB_HUB } from '../trade/usb.ts';
import { beside, end, movedEnd, newPart, newWire, SHORT_M, sameEnd } from './build.ts';
import { isPoweredHub } from './cables.ts';
import { called } from './defineRule.ts';
import { type Converter, closableReach, converters, outputA } from './rails.ts';
import type { Repair } from './types.ts';

/** From the computer to a hub beside it, m. */
const HUB_CABLE_M = 0.3;
/**
 * Its branch behind the fuse: small fuses and thin wires lose too much of 5 V, so these at the least (0.1 Ω in a 1 A fuse: makers’
 * sheets, from memory). What is not behind it is sized automatically, for all that the converter can push.
 */
const BRANCH = { fuseA: 3, areaMm2: 0.75 } as const;
/** A fuse is loaded so far at the most (fuse makers' guides, from memory). */
const FUSE_SHARE = 0.75;

/**
 * Plugs ports of a computer over to a hub with its own 5 V that lets nothing back, data and ground kept: to one that is there and
 * has room, else to a new one with a fused branch from the converter that feeds the computer.
 * Empty where neither can be.
 */
export function ontoHub(facts: Facts, computer: PartView, ports: readonly Port[]): Repair[] {
  if (ports.length === 0 || ports.some((p) => p.amp > USB_HUB.portLimitA)) return [];
  const what = listed(ports.map((p) => `USB ${p.port}`));
  const there = roomyHub(facts, computer, ports);
  if (there) {
    const title = `Plug what hangs on ${what} into ${called(there.view)}`;
    return [
      {
        title,
        safe: true,
        edit: (plan) => {
          const draft = new Draft(plan);
          return plug(plan, draft, computer.part.id, ports, there.view.part.id, there.free) ? draft.edit('repair.apply', title) : null;
        },
      },
    ];
  }
  const feeder = feederOf(facts, computer);
  const title = `Put a hub with a fused 5 V of its own before what hangs on ${what}`;
  return feeder ? [{ title, safe: false, edit: (plan) => newHub(plan, computer.part.id, ports, feeder, title) }] : [];
}

export interface Port {
  readonly port: number;
  readonly amp: number;
}

function newHub(plan: Plan, computer: Id, ports: readonly Port[], feeder: Converter, title: string): ReturnType<Repair['edit']> {
  const [row, source] = [plan.parts[computer], plan.parts[feeder.view.part.id]];
  if (!row || !source) return null;
  const draft = new Draft(plan);
  const amp = ports.reduce((sum, p) => sum + p.amp, USB_DEVICES.hub.peakA);
  const ratingA = BLADE_RATINGS_A.find((a) => a >= Math.max(BRANCH.fuseA, amp / FUSE_SHARE));
  if (ratingA === undefined) return null;
  const hub = newPart(draft, { kind: 'usb-hub', ...beside(row, 60, 320), name: 'USB hub', settings: { backfeed: 'no' } });
  const fuse = newPart(draft, { kind: 'blade-fuse', ...beside(source, 150, 80), name: 'Fuse of the hub', settings: { ratingA } });
  const free = ports.map((_p, i) => `d${i + 1}`);
  if (!plug(plan, draft, computer, ports, hub, free)) return null;
  newWire(draft, end(computer, `usb${ports[0]!.port}`), end(hub, 'up'), { lengthM: HUB_CABLE_M });
  newWire(draft, end(source.id, feeder.source.terminal), end(fuse, '1'), { lengthM: SHORT_M });
  newWire(draft, end(fuse, '2'), end(hub, '5v'), { areaMm2: BRANCH.areaMm2 });
  newWire(draft, end(hub, '0v'), end(source.id, feeder.source.returns));
  return draft.edit('repair.apply', title);
}

/** Moves the plugs at the computer, each with its cable. False when one is no longer there. */
function plug(plan: Plan, draft: Draft, computer: Id, ports: readonly Port[], hub: Id, free: readonly string[]): boolean {
  return ports.every(({ port }, i) => {
    const at: End = end(computer, `usb${port}`);
    const [wire] = wiresOn(plan, computer, at.terminal).filter((w) => sameEnd(w.from, at) || sameEnd(w.to, at));
    const to = free[i];
    if (!wire || to === undefined) return false;
    draft.setWire(movedEnd(wire, at, end(hub, to), plan.parts[computer]?.zone === draft.part(hub)?.zone));
    return true;
  });
}

/** A hub of this computer that has its own 5 V, lets nothing back and has enough free ports. */
function roomyHub(facts: Facts, computer: PartView, ports: readonly Port[]): { readonly view: PartView; readonly free: readonly string[] } | null {
  for (const view of facts.ofKind('usb-hub')) {
    if (!isPoweredHub(view) || view.s.str('backfeed') !== 'no' || !facts.isWired(`${view.part.id}.5v`)) continue;
    const mine = [...facts.reach(`${view.part.id}.up`, ['conductor']).keys()].some((key) => facts.at(key)?.view === computer);
    const free = view.terminals.filter((t) => t.flow === 'out' && !facts.isWired(`${view.part.id}.${t.id}`)).map((t) => t.id);
    if (mine && free.length >= ports.length) return { view, free };
  }
  return null;
}

/** The converter that feeds the computer, where it can bear a hub's own current too. */
function feederOf(facts: Facts, computer: PartView): Converter | null {
  const plus = `${computer.part.id}.${supplyPair(computer.s).plus}`;
  const feeder = converters(facts).find((c) => closableReach(facts, c.outKey, ['fuse', 'contact', 'conductor']).has(plus));
  if (feeder?.view.kind.kind !== 'step-down') return null;
  return outputA(facts, feeder).peakA + USB_DEVICES.hub.peakA <= feeder.view.s.num('ratedA') ? feeder : null;
}
