import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { USB_PORTS } from '../parts/computer/elements.ts';
import { boardOf } from '../parts/computer/settings.ts';
import { wiresOn } from '../plan/connect.ts';
import { Draft } from '../plan/draft.ts';
import { listed } from '../plan/listed.ts';
import type { End, Id, Plan } from '../plan/types.ts';
import { USB_HUB, USB_HUB_PORT_A, USB_PORT_A, type UsbPortClass } from '../trade/usb.ts';
import { beside, end, movedEnd, newPart, newWire, sameEnd, type } from './build.ts';
import { isPoweredHub } from './cables.ts';
import { called } from './defineRule.ts';
import { feedHub, fiveOfItsOwn, type HubFeed, hubFeed } from './hubSupply.ts';
import type { Repair } from './types.ts';

/** From the computer to a hub beside it, m. */
const HUB_CABLE_M = 0.3;

/** A port by its terminal, with the most that goes out of it. */
export interface Port {
  readonly port: string;
  readonly amp: number;
}

/** What the ports of a hub are made for; USB 2 where nobody has looked. */
export function portClassOf(hub: PartView): UsbPortClass {
  const told = hub.s.str('portClass');
  return told === 'unknown' ? 'usb2' : (told as UsbPortClass);
}

/** What one port of a hub may give one device, A. */
export function hubPortA(hub: PartView): number {
  return USB_HUB_PORT_A[isPoweredHub(hub) ? 'own' : 'bus'][portClassOf(hub)];
}

const CLASSES: readonly UsbPortClass[] = ['usb2', 'usb3', 'charging'];

/** The least class of ports with a supply behind them that gives so much; null when none does. */
export function classFor(amp: number): UsbPortClass | null {
  return CLASSES.find((c) => amp <= USB_HUB_PORT_A.own[c]) ?? null;
}

/** The wired ports of a hub or computer, each with the most that goes out of it, A; null where nothing was solved. */
export function usbPorts(facts: Facts, view: PartView): { readonly port: string; readonly amp: number | null }[] {
  const ids = view.kind.kind === 'computer' ? USB_PORTS.map((k) => `usb${k}`) : view.terminals.filter((t) => t.flow === 'out').map((t) => t.id);
  return ids
    .filter((id) => facts.isWired(`${view.part.id}.${id}`))
    .map((port) => {
      const solved = facts.solved.map((r) => facts.elementA(view.part.id, port, r.state, r.band));
      const all = [facts.designElementA(view.part.id, port), ...solved].filter((a) => a !== null);
      return { port, amp: all.length === 0 ? null : Math.max(0, ...all) };
    });
}

/**
 * Plugs ports of a computer over to a hub with its own 5 V that lets nothing back, data and ground kept: to one that is there and
 * has room, else to a new one with a fused branch from the converter that feeds the computer. Where the hungriest is a hub that
 * lives on its plug, that one gets a supply. Empty where nothing of this can be.
 */
export function ontoHub(facts: Facts, computer: PartView, ports: readonly Port[]): Repair[] {
  const [first, ...rest] = ports;
  if (!first) return [];
  const hub = hubAt(facts, computer, first.port);
  if (hub) return [...(rest.length === 0 ? ontoComputer(facts, computer, hub) : []), ...supplied(facts, computer, hub, rest)];
  const made = classFor(Math.max(...ports.map((p) => p.amp)));
  if (made === null || ports.some((p) => p.amp > USB_HUB.portLimitA)) return [];
  const what = listed(ports.map((p) => p.port.replace('usb', 'USB ')));
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
  const feed = hubFeed(facts, computer);
  if (!feed) return [];
  const title = `Put a hub with ${fiveOfItsOwn(feed)} before what hangs on ${what}`;
  return [{ title, safe: false, edit: (plan) => newHub(plan, computer.part.id, ports, made, feed, title) }];
}

function newHub(plan: Plan, computer: Id, ports: readonly Port[], made: UsbPortClass, feed: HubFeed, title: string): ReturnType<Repair['edit']> {
  const row = plan.parts[computer];
  if (!row) return null;
  const draft = new Draft(plan);
  const settings = { backfeed: 'no', ...(made === 'usb2' ? {} : { portClass: made }) };
  const hub = newPart(draft, { kind: 'usb-hub', ...beside(row, 60, 320), name: 'USB hub', settings });
  const free = ports.map((_p, i) => `d${i + 1}`);
  if (!plug(plan, draft, computer, ports, hub, free)) return null;
  newWire(draft, end(computer, ports[0]!.port), end(hub, 'up'), { lengthM: HUB_CABLE_M });
  const deviceA = ports.reduce((sum, p) => sum + p.amp, 0);
  return feedHub(draft, feed, hub, deviceA) ? draft.edit('repair.apply', title) : null;
}

/** The hub without a supply that is plugged into a port; null when something else is. */
function hubAt(facts: Facts, computer: PartView, port: string): PartView | null {
  const near = facts.reach(`${computer.part.id}.${port}`, []);
  return facts.ofKind('usb-hub').find((v) => !isPoweredHub(v) && near.has(`${v.part.id}.up`)) ?? null;
}

/** The computer on whose port a hub hangs, over cables and hubs; null when none. */
export function hostOf(facts: Facts, hub: PartView): PartView | null {
  const near = facts.reach(`${hub.part.id}.up`, ['conductor']);
  return facts.ofKind('computer').find((c) => USB_PORTS.some((k) => near.has(`${c.part.id}.usb${k}`))) ?? null;
}

/** Gives a hub that lives on its plug a fused 5 V of its own, and plugs further ports of the computer into it. */
export function supplied(facts: Facts, computer: PartView, hub: PartView, more: readonly Port[] = []): Repair[] {
  const own = usbPorts(facts, hub).map((p) => p.amp ?? 0);
  const amps = [...own, ...more.map((p) => p.amp)];
  const made = classFor(Math.max(0, ...amps));
  const feed = hubFeed(facts, computer);
  const free = hub.terminals.filter((t) => t.flow === 'out' && !facts.isWired(`${hub.part.id}.${t.id}`)).map((t) => t.id);
  if (made === null || !feed || free.length < more.length) return [];
  const with_ = more.length === 0 ? '' : `, and plug what hangs on ${listed(more.map((p) => p.port.replace('usb', 'USB ')))} into it`;
  const title = `Give ${called(hub)} ${fiveOfItsOwn(feed)}${with_}`;
  const better = made !== 'usb2' && CLASSES.indexOf(made) > CLASSES.indexOf(portClassOf(hub));
  return [
    {
      title,
      // Not every hub has a socket for a supply.
      safe: false,
      edit: (plan) => {
        if (!plan.parts[hub.part.id]) return null;
        const draft = new Draft(plan);
        type(draft, hub.part.id, { ownSupply: true, backfeed: 'no', ...(better ? { portClass: made } : {}) });
        if (!plug(plan, draft, computer.part.id, more, hub.part.id, free)) return null;
        const deviceA = amps.reduce((sum, a) => sum + a, 0);
        return feedHub(draft, feed, hub.part.id, deviceA) ? draft.edit('repair.apply', title) : null;
      },
    },
  ];
}

/**
 * Moves the hungriest device of a hub without a supply to a free port of the computer itself, which gives one plug what a hub’s
 * port may not.
 */
export function ontoComputer(facts: Facts, computer: PartView, hub: PartView): Repair[] {
  const to = USB_PORTS.map((k) => `usb${k}`).find((id) => !facts.isWired(`${computer.part.id}.${id}`));
  const [most] = usbPorts(facts, hub)
    .map(({ port, amp }) => ({ port, amp: amp ?? 0 }))
    .sort((a, b) => b.amp - a.amp);
  if (to === undefined || !most || most.amp === 0 || most.amp > USB_PORT_A.usb2) return [];
  // All ports of the computer share one limiter: what is too much for that is no less on another of them.
  const all = usbPorts(facts, computer).reduce((sum, p) => sum + (p.amp ?? 0), 0);
  if (all > boardOf(computer.s).usbTotalA) return [];
  const [wire] = wiresOn(facts.plan, hub.part.id, most.port);
  const device = wire && facts.parts.get(wire.from.part === hub.part.id ? wire.to.part : wire.from.part);
  if (!device) return [];
  const title = `Plug ${called(device)} into ${to.replace('usb', 'USB ')} of ${called(computer)} itself`;
  return [
    {
      title,
      safe: true,
      edit: (plan) => {
        const row = plan.wires[wire.id];
        if (!row) return null;
        const draft = new Draft(plan);
        const near = plan.parts[computer.part.id]?.zone === plan.parts[hub.part.id]?.zone;
        draft.setWire(movedEnd(row, end(hub.part.id, most.port), end(computer.part.id, to), near));
        return draft.edit('repair.apply', title);
      },
    },
  ];
}

/** Moves the plugs at the computer, each with its cable. False when one is no longer there. */
function plug(plan: Plan, draft: Draft, computer: Id, ports: readonly Port[], hub: Id, free: readonly string[]): boolean {
  return ports.every(({ port }, i) => {
    const at: End = end(computer, port);
    const [wire] = wiresOn(plan, computer, port).filter((w) => sameEnd(w.from, at) || sameEnd(w.to, at));
    const to = free[i];
    if (!wire || to === undefined) return false;
    draft.setWire(movedEnd(wire, at, end(hub, to), plan.parts[computer]?.zone === draft.part(hub)?.zone));
    return true;
  });
}

/** A hub of this computer that has its own 5 V, lets nothing back, has enough free ports and may give each plug what it takes. */
function roomyHub(facts: Facts, computer: PartView, ports: readonly Port[]): { readonly view: PartView; readonly free: readonly string[] } | null {
  for (const view of facts.ofKind('usb-hub')) {
    if (!isPoweredHub(view) || view.s.str('backfeed') !== 'no' || !facts.isWired(`${view.part.id}.5v`)) continue;
    const mine = [...facts.reach(`${view.part.id}.up`, ['conductor']).keys()].some((key) => facts.at(key)?.view === computer);
    const free = view.terminals.filter((t) => t.flow === 'out' && !facts.isWired(`${view.part.id}.${t.id}`)).map((t) => t.id);
    if (mine && free.length >= ports.length && ports.every((p) => p.amp <= hubPortA(view))) return { view, free };
  }
  return null;
}
