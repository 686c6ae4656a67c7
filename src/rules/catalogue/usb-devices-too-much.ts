import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { USB_PORTS } from '../../parts/computer/elements.ts';
import { boardOf } from '../../parts/computer/settings.ts';
import { USB_HUB_PORT_A, USB_PORT_A } from '../../trade/usb.ts';
import { isPoweredHub } from '../cables.ts';
import { amps, ampsApart, called, defineRule, part, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { classFor, hostOf, hubPortA, ontoComputer, ontoHub, type Port, supplied, usbPorts } from '../hubEdits.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('usb-devices-too-much', 'C14');
/** What leaks beside a device is no reason to speak, A. */
const SLACK_A = 0.001;

export const usbDevicesTooMuch = defineRule({
  id: 'usb-devices-too-much',
  code: 'C14',
  level: 'fault',
  title: 'USB devices take more than their port gives',
  why: 'All USB ports share one current limiter. When it is asked for more, every device loses its 5 V at once: the touch layer stops, the modem starts again, and nobody sees why. A hub has limits of its own, port by port.',
  source: {
    text: 'Board maker’s supply chapter: 1.2 A for all ports (read), 1.6 A on the newest class (from memory); USB 2.0 and 3 unit loads for ports of boards and hubs (from memory)',
    grade: 'data sheet',
  },
  needs: 'readings',
  check: (facts) => [...facts.ofKind('computer').flatMap((view) => judge(facts, view)), ...facts.ofKind('usb-hub').flatMap((view) => judgeHub(facts, view))],
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    return view.kind.kind === 'usb-hub' ? hubRepairs(facts, view) : ontoHub(facts, view, hungriest(facts, view));
  },
});

/** The ports to relieve, hungriest first: until the rest is within what the board gives, and one plug within that of USB 2. */
function hungriest(facts: Facts, view: PartView): Port[] {
  const sorted = usbPorts(facts, view)
    .map(({ port, amp }) => ({ port, amp: amp ?? 0 }))
    .sort((a, b) => b.amp - a.amp);
  const total = (list: readonly Port[]): number => list.reduce((sum, p) => sum + p.amp, 0);
  const enough = sorted.findIndex((p, i) => total(sorted.slice(i)) <= boardOf(view.s).usbTotalA && p.amp <= USB_PORT_A.usb2 + SLACK_A);
  return enough === -1 ? sorted : sorted.slice(0, enough);
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const list = usbPorts(facts, view);
  if (list.length === 0) return [];
  const subject = part(view.part.id);
  if (list.every((p) => p.amp === null)) return [unknown(subject, 'the currents of its USB ports could not be worked out')];
  const sumA = list.reduce((sum, p) => sum + (p.amp ?? 0), 0);
  const totalA = boardOf(view.s).usbTotalA;
  const most = list.reduce((a, b) => ((b.amp ?? 0) > (a.amp ?? 0) ? b : a));
  const mostA = most.amp ?? 0;
  const todo = 'Give the hungriest device a 5 V feed of its own, over a powered hub that lets nothing back; keep data and ground.';
  const related = plugged(facts, view).map((v) => part(v.part.id));
  const figures = [
    { label: 'all ports together', value: sumA, unit: 'A' },
    { label: 'board gives', value: totalA, unit: 'A' },
  ];
  const bad = (level: 'fault' | 'advice', what: string): Verdict[] => [
    found({ level, subject, related, what, todo, figures, state: 'RUN_STOPPED', band: 'low' }),
  ];
  const [asked, given] = ampsApart(sumA, totalA);
  if (sumA > totalA + SLACK_A) return bad('fault', `What hangs on the USB ports of ${called(view)} takes up to ${asked} together; the board gives ${given}.`);
  if (mostA > USB_PORT_A.usb3 + SLACK_A) {
    return bad('fault', `USB port ${portName(most.port)} of ${called(view)} gives up to ${amps(mostA)} to one plug; USB 3 allows ${amps(USB_PORT_A.usb3)}.`);
  }
  if (mostA > USB_PORT_A.usb2 + SLACK_A) {
    return bad(
      'advice',
      `USB port ${portName(most.port)} of ${called(view)} gives up to ${amps(mostA)} to one plug: more than the ${amps(USB_PORT_A.usb2)} of a USB 2 port.`,
    );
  }
  return [fine(subject)];
}

/** A hub's own ports: what each may give one device. */
function judgeHub(facts: Facts, hub: PartView): Verdict[] {
  const list = usbPorts(facts, hub);
  if (list.length === 0) return [];
  const subject = part(hub.part.id);
  if (list.every((p) => p.amp === null)) return [unknown(subject, 'the currents of its USB ports could not be worked out')];
  const most = list.reduce((a, b) => ((b.amp ?? 0) > (a.amp ?? 0) ? b : a));
  const amp = most.amp ?? 0;
  const may = hubPortA(hub);
  if (amp <= may + SLACK_A) return [fine(subject)];
  const own = isPoweredHub(hub);
  const asked = hub.s.str('portClass') === 'unknown';
  const [takes, gives] = ampsApart(amp, may);
  const over = list.filter((p) => (p.amp ?? 0) > may + SLACK_A).length - 1;
  const more = over === 0 ? '' : `, and ${over} more ${over === 1 ? 'port' : 'ports'} too much as well`;
  const to = `Port ${portName(most.port)} of ${called(hub)} gives up to ${takes} to one plug${more}`;
  return [
    found({
      // A device behind a hub without a supply may be refused for what it says it takes; most that say little are let in. USB 3 ports give 0.9 A.
      level: own && !(asked && amp <= USB_HUB_PORT_A.own.usb3 + SLACK_A) ? 'fault' : 'advice',
      subject,
      related: list.flatMap((p) => devicesAt(facts, hub, p.port)).map((v) => part(v.part.id)),
      what: own
        ? `${to}; ${asked ? 'a USB 2 port, as is assumed of it, is' : 'it is'} made for ${gives}.`
        : `${to}; behind a hub that lives on its own plug a device may take ${gives}, and the computer may refuse one that says it takes more.`,
      todo: own
        ? 'Take a hub with ports that are made for it, or give the device a 5 V feed of its own; keep data and ground.'
        : 'Give the hub a fused 5 V of its own, or plug the device into the computer itself.',
      figures: [
        { label: 'to one plug', value: amp, unit: 'A' },
        { label: 'one port gives', value: may, unit: 'A' },
      ],
      state: 'RUN_STOPPED',
      band: 'low',
    }),
  ];
}

function hubRepairs(facts: Facts, hub: PartView): Repair[] {
  if (!isPoweredHub(hub)) {
    const computer = hostOf(facts, hub);
    return computer ? [...ontoComputer(facts, computer, hub), ...supplied(facts, computer, hub)] : [];
  }
  const made = classFor(Math.max(0, ...usbPorts(facts, hub).map((p) => p.amp ?? 0)));
  if (made === null) return [];
  return [
    typing(
      hub.part.id,
      { portClass: made },
      `Take a hub with ${made === 'charging' ? 'charging' : 'USB 3'} ports, ${amps(USB_HUB_PORT_A.own[made])} each`,
      false,
    ),
  ];
}

/** "2" of `usb2` or `d2`. */
function portName(port: string): string {
  return port.replace(/^\D+/, '');
}

function devicesAt(facts: Facts, hub: PartView, port: string): PartView[] {
  const near = [...facts.reach(`${hub.part.id}.${port}`, []).keys()].flatMap((key) => facts.at(key)?.view ?? []);
  return [...new Set(near)].filter((v) => v !== hub && v.facts.loads !== undefined);
}

/** What lives on the ports, over cables and hubs too; behind a hub with its own 5 V nothing does. */
function plugged(facts: Facts, view: PartView): PartView[] {
  const found = new Set<PartView>();
  for (const k of USB_PORTS) {
    for (const key of facts.reach(`${view.part.id}.usb${k}`, ['conductor'], isPoweredHub).keys()) {
      const at = facts.at(key)?.view;
      if (at && at !== view && at.facts.loads && !isPoweredHub(at)) found.add(at);
    }
  }
  return [...found];
}
