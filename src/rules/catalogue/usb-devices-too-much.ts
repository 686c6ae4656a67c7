import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { USB_PORTS } from '../../parts/computer/elements.ts';
import { boardOf } from '../../parts/computer/settings.ts';
import { USB_PORT_A } from '../../trade/usb.ts';
import { isPoweredHub } from '../cables.ts';
import { amps, ampsApart, called, defineRule, part, verdicts } from '../defineRule.ts';
import { ontoHub, type Port } from '../hubEdits.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('usb-devices-too-much', 'C14');
/** What leaks beside a device is no reason to speak, A. */
const SLACK_A = 0.001;

export const usbDevicesTooMuch = defineRule({
  id: 'usb-devices-too-much',
  code: 'C14',
  level: 'fault',
  title: 'USB devices take more than the board gives',
  why: 'All USB ports share one current limiter. When it is asked for more, every device loses its 5 V at once: the touch layer stops, the modem starts again, and nobody sees why.',
  source: {
    text: 'Board maker’s supply chapter: 1.2 A for all ports (read), 1.6 A on the newest class (from memory); USB 2.0 and 3 unit loads',
    grade: 'data sheet',
  },
  needs: 'readings',
  check: (facts) => facts.ofKind('computer').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    return view ? ontoHub(facts, view, hungriest(facts, view)) : [];
  },
});

/** The ports to relieve, hungriest first: until the rest is within what the board gives, and one plug within that of USB 2. */
function hungriest(facts: Facts, view: PartView): Port[] {
  const sorted = ports(facts, view)
    .map(({ port, amp }) => ({ port, amp: amp ?? 0 }))
    .sort((a, b) => b.amp - a.amp);
  const total = (list: readonly Port[]): number => list.reduce((sum, p) => sum + p.amp, 0);
  const enough = sorted.findIndex((p, i) => total(sorted.slice(i)) <= boardOf(view.s).usbTotalA && p.amp <= USB_PORT_A.usb2 + SLACK_A);
  return enough === -1 ? sorted : sorted.slice(0, enough);
}

/** The most that goes out of each wired port, A; null where nothing was solved. */
function ports(facts: Facts, view: PartView): { readonly port: number; readonly amp: number | null }[] {
  return USB_PORTS.filter((k) => facts.isWired(`${view.part.id}.usb${k}`)).map((port) => {
    const element = `usb${port}`;
    const solved = facts.solved.map((r) => facts.elementA(view.part.id, element, r.state, r.band));
    const all = [facts.designElementA(view.part.id, element), ...solved].filter((a) => a !== null);
    return { port, amp: all.length === 0 ? null : Math.max(0, ...all) };
  });
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const list = ports(facts, view);
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
    return bad('fault', `USB port ${most.port} of ${called(view)} gives up to ${amps(mostA)} to one plug; USB 3 allows ${amps(USB_PORT_A.usb3)}.`);
  }
  if (mostA > USB_PORT_A.usb2 + SLACK_A) {
    return bad(
      'advice',
      `USB port ${most.port} of ${called(view)} gives up to ${amps(mostA)} to one plug: more than the ${amps(USB_PORT_A.usb2)} of a USB 2 port.`,
    );
  }
  return [fine(subject)];
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
