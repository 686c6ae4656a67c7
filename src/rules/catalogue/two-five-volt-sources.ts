import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';
import { removeWire, typing } from '../fixes.ts';
import { type Converter, closableReach, converters } from '../rails.ts';
import { along } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('two-five-volt-sources', 'C13');
const PASSES = ['fuse', 'contact', 'conductor'];
const USB = [1, 2, 3, 4];

export const twoFiveVoltSources = defineRule({
  id: 'two-five-volt-sources',
  code: 'C13',
  level: 'hazard',
  title: 'Two 5 V sources on the computer at once',
  why: 'Header pins and power socket are one rail on the board. The stronger source pushes into the weaker, which may be a port that was never made for it.',
  source: { text: 'Board maker’s notes: header pins have no reverse guard on many boards (read); hubs may feed back (from memory)', grade: 'data sheet' },
  needs: 'graph',
  always: true,
  check: (facts) => facts.ofKind('computer').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const hub = facts.parts.get(String(finding.data?.hub ?? ''));
    // Its cable carries the data too, so it stays.
    if (hub) return [typing(hub.part.id, { backfeed: 'no' }, `Take another hub for ${called(hub)}, one that keeps its 5 V to itself`, false)];
    const id = String(finding.data?.wire ?? '');
    return facts.plan.wires[id] ? [removeWire(id, `Take ${wireName(facts, id)} away`)] : [];
  },
});

interface Inlet {
  readonly converter: Converter;
  readonly steps: readonly Step[];
  /** USB port through which it enters, or null for the header or power socket. */
  readonly usb: number | null;
}

/** Converters whose output reaches the computer's 5 V, by header or socket and by USB. */
function inlets(facts: Facts, view: PartView): Inlet[] {
  const key = (t: string): string => `${view.part.id}.${t}`;
  const list: Inlet[] = [];
  for (const converter of converters(facts)) {
    const ways = closableReach(facts, converter.outKey, PASSES);
    const main = ways.get(key(view.s.str('feed') === 'socket' ? 'vbus' : '2')) ?? ways.get(key('2'));
    if (main) list.push({ converter, steps: main, usb: null });
    for (const k of USB) {
      const steps = ways.get(key(`usb${k}`));
      if (steps) list.push({ converter, steps, usb: k });
    }
  }
  return list;
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const all = inlets(facts, view);
  const first = all.find((i) => i.usb === null);
  if (!first) return [];
  const subject = part(view.part.id);
  const second =
    all.find((i) => i !== first && i.usb === null && closableReach(facts, first.converter.outKey, PASSES).has(i.converter.outKey)) ??
    all.find((i) => i.usb !== null);
  if (!second) return [fine(subject)];
  const hub = second.usb === null ? undefined : second.steps.findLast((s) => s.through?.kind.kind === 'usb-hub')?.through;
  if (hub) return [throughHub(facts, view, first, second, hub)];
  const open = second.usb === null || view.s.flag('usbBackfeed');
  const wires = along(facts, second.steps).wires;
  const last = wires[wires.length - 1];
  const where = second.usb === null ? 'reaches the same 5 V' : `feeds its USB port ${second.usb}`;
  return [
    found({
      level: open ? 'hazard' : 'advice',
      subject,
      related: [...new Set([first.converter.view.part.id, second.converter.view.part.id])].map(part).concat(wires.map((w) => wire(w.id))),
      what: open
        ? `${called(view)} is fed by ${called(first.converter.view)}, and ${called(second.converter.view)} ${where} with no diode between.`
        : `${called(view)} is fed by ${called(first.converter.view)}, and ${called(second.converter.view)} ${where}; on some boards that port lets current back in.`,
      todo: 'Feed it from one place only, or put an ideal diode into each feed.',
      ...(last ? { data: { wire: last.id } } : {}),
    }),
  ];
}

/** A hub between: its makers know whether its 5 V stands at its host plug. */
function throughHub(facts: Facts, view: PartView, first: Inlet, second: Inlet, hub: PartView): Verdict {
  const known = hub.s.str('backfeed') === 'yes';
  const ids = [first.converter.view.part.id, second.converter.view.part.id, hub.part.id];
  const wires = along(facts, second.steps).wires.map((w) => wire(w.id));
  return found({
    level: known || view.s.flag('usbBackfeed') ? 'hazard' : 'advice',
    subject: part(view.part.id),
    related: [...[...new Set(ids)].map((id) => part(id)), ...wires],
    what: known
      ? `${called(view)} is fed by ${called(first.converter.view)}, and ${called(hub)} lets its own 5 V back into USB port ${second.usb}.`
      : `${called(view)} is fed by ${called(first.converter.view)}, and nobody has said whether ${called(hub)} lets its own 5 V back into USB port ${second.usb}.`,
    todo: known
      ? 'Take a hub that keeps its 5 V to itself, or one cable to it whose 5 V core is cut.'
      : 'Feed the hub, unplug it from the computer and measure at its host plug: volts there mean that it lets them back. Then take another one.',
    data: { hub: hub.part.id },
  });
}
