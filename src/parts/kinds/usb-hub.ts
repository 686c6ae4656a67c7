import { USB_DEVICES } from '../../trade/loads.ts';
import { USB_HUB } from '../../trade/usb.ts';
import { climateSettings } from '../climate.ts';
import { definePart } from '../definePart.ts';
import { JOIN_OHM, SCREEN_OHM } from '../joints.ts';
import { amount, choice, yesNo } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import type { Link, Settings } from '../types.ts';

/** Below this a hub has stopped and draws little, V (common practice, no source). */
const STOPS_V = 3;
/** A hub with a supply of its own only looks whether its host is there, ohm (common practice, no source). */
const LOOKS_OHM = 100e3;

/**
 * Makes several USB ports of one. With a 5 V of its own its devices live on that, and the host gives them data alone;
 * without one they all hang on the host's one port. It never lives on both: one whose own 5 V is off feeds nothing.
 */
export const usbHub = definePart({
  kind: 'usb-hub',
  title: 'USB hub',
  group: 'Compute',
  about: 'Makes several USB ports of one. With a 5 V branch of its own its devices no longer live on the computer’s ports.',
  words: ['splitter', 'ports', 'powered', 'repeater', 'active cable', 'extension'],
  letter: 'A',
  settings: [
    amount(
      'ports',
      'Ports for devices',
      '',
      [1, 4, 7],
      'USB 2.0: one port can feed a hub and four small devices (from memory); one port stands for an active cable',
    ),
    yesNo('ownSupply', 'Has a 5 V supply of its own', true, 'assumed, as a hub without one takes nothing off the computer', {
      help: 'Off: the hub and all its devices live on the one port that it is plugged into.',
    }),
    choice(
      'backfeed',
      'Keeps its 5 V from the computer',
      [
        ['unknown', 'nobody has looked: assume that it does not'],
        ['no', 'yes: nothing flows back through its plug'],
        ['yes', 'no: its 5 V stands at the computer’s port too'],
      ],
      'asked, because many cheap hubs let it through (from memory)',
      { help: 'Feed the hub, plug it into nothing, and measure at its host plug: no volts means that it keeps them.' },
    ),
    choice(
      'portClass',
      'Its ports are made for',
      [
        ['unknown', 'nobody has looked: USB 2 is assumed'],
        ['usb2', 'USB 2: 0.5 A each'],
        ['usb3', 'USB 3: 0.9 A each'],
        ['charging', 'charging: 1.5 A each'],
      ],
      'asked; USB 2 is the least that a port is made for (USB 2.0, from memory)',
      { help: 'It stands in its sheet. Without a 5 V of its own a port gives one device only 0.1 A, or 0.15 A as USB 3.' },
    ),
    amount(
      'ownA',
      'Its own current',
      'A',
      [0.005, USB_DEVICES.hub.peakA, 1],
      'USB 2.0: 0.1 A for a hub without its devices (from memory); makers’ sheets of hubs say less',
    ),
    ...climateSettings(-20, 70, 'hubs for industry −40 to 85 °C, those for desks 0 to 40 °C; from memory'),
  ],
  variants: [
    { id: 'powered', title: 'USB hub with its own 5 V', settings: {} },
    { id: 'bus', title: 'USB hub without a supply', settings: { ownSupply: false } },
    { id: 'active', title: 'Active USB cable', settings: { ports: 1, ownSupply: false } },
  ],
  terminals: (s) => [
    { id: 'up', label: 'host', title: 'Plug to the computer', side: 'left', form: 'usb', role: 'usb-data', flow: 'in', nominalV: 5, required: true },
    ...(s.flag('ownSupply')
      ? [
          { id: '5v', label: '5 V', title: 'Supply, 5 V', side: 'left', form: 'screw', role: 'rail5', flow: 'in', nominalV: 5, required: true } as const,
          { id: '0v', label: '0 V', title: 'Supply, 0 V', side: 'left', form: 'screw', role: 'ground', flow: 'in', required: true } as const,
        ]
      : []),
    ...portsOf(s).map(
      (id, i) => ({ id, label: `${i + 1}`, title: `Port ${i + 1}`, side: 'right', form: 'usb', role: 'usb-data', flow: 'out', nominalV: 5 }) as const,
    ),
  ],
  symbol: (s) => moduleBox({ left: s.flag('ownSupply') ? ['up', '5v', '0v'] : ['up'], right: portsOf(s) }, 120, s.flag('ownSupply') ? 80 : 60),
  behave: (s, { load, wired }) => {
    const { plus, minus } = fedAt(s);
    const own = s.flag('ownSupply');
    const amp = { heavy: s.num('ownA'), typical: 0.6 * s.num('ownA'), light: 0.3 * s.num('ownA') }[load];
    return {
      elements: [
        { kind: 'current', id: 'load', a: plus, b: minus, amp, minV: STOPS_V },
        ...(own && wired('up')
          ? [
              { kind: 'resistor' as const, id: 'back', a: plus, b: 'up', ohm: letsBack(s) ? USB_HUB.pathOhm : LOOKS_OHM },
              { kind: 'resistor' as const, id: 'screen', a: 'up~0', b: minus, ohm: JOIN_OHM },
            ]
          : []),
        ...portsOf(s)
          .filter((id) => wired(id))
          .flatMap((id) => [
            { kind: 'resistor' as const, id, a: plus, b: id, ohm: USB_HUB.pathOhm },
            { kind: 'resistor' as const, id: `${id}Return`, a: `${id}~0`, b: minus, ohm: SCREEN_OHM },
          ]),
      ],
    };
  },
  facts: (s) => {
    const { plus, minus } = fedAt(s);
    const own = s.flag('ownSupply');
    return {
      loads: [
        {
          plus,
          minus,
          label: 'USB hub',
          nominalV: 5,
          // With its own supply it must still give 4.75 V at its ports; without, 4.40 V (USB 2.0, from memory).
          minV: own ? 4.75 : 4.4,
          maxV: 5.25,
          absMaxV: 5.5,
          peakA: s.num('ownA'),
          heatA: s.num('ownA'),
        },
      ],
      links: links(s),
      ...(own
        ? {
            sources: portsOf(s).map((id) => ({
              terminal: id,
              returns: `${id}~0`,
              kind: 'usb' as const,
              nominalV: 5,
              limitA: USB_HUB.portLimitA,
              limitAssumed: true,
              maxOhm: 2 * USB_HUB.pathOhm,
              minOhm: USB_HUB.pathOhm / 2,
            })),
            polar: [{ plus, minus, what: 'USB hub' }],
          }
        : {}),
    };
  },
  subtitle: (s) => (s.flag('ownSupply') ? 'own 5 V' : 'fed by its plug'),
  spec: (s) => {
    const ports = portsOf(s).length;
    const what = `USB hub, ${ports} ${ports === 1 ? 'port' : 'ports'}, itself at most ${s.num('ownA')} A`;
    if (!s.flag('ownSupply')) return `${what}, fed by its plug`;
    return `${what}, 5 V supply of its own${s.str('backfeed') === 'yes' ? '' : ', nothing back through its host plug'}`;
  },
  meterPoints: (s) => (s.flag('ownSupply') ? [{ plus: '5v', minus: '0v', what: '4.75 to 5.25 V with every device at work' }] : []),
});

/** Terminals of the ports for devices. */
function portsOf(s: Settings): string[] {
  return Array.from({ length: Math.round(s.num('ports')) }, (_, i) => `d${i + 1}`);
}

function fedAt(s: Settings): { readonly plus: string; readonly minus: string } {
  return s.flag('ownSupply') ? { plus: '5v', minus: '0v' } : { plus: 'up', minus: 'up~0' };
}

/** Does its own 5 V stand at its host plug? What nobody has looked at is taken for the worse. */
function letsBack(s: Settings): boolean {
  return s.str('backfeed') !== 'no';
}

/** Its own 5 V goes on through limiters, which are sources; the host's goes straight through. */
function links(s: Settings): Link[] {
  const { minus } = fedAt(s);
  const returns = portsOf(s).map((id): Link => ({ a: `${id}~0`, b: minus, type: 'join' }));
  if (!s.flag('ownSupply')) return [...portsOf(s).map((id): Link => ({ a: 'up', b: id, type: 'conductor', ohm: USB_HUB.pathOhm })), ...returns];
  const back: Link[] = letsBack(s) ? [{ a: '5v', b: 'up', type: 'conductor', ohm: USB_HUB.pathOhm }] : [];
  return [...back, { a: 'up~0', b: '0v', type: 'join' }, ...returns];
}
