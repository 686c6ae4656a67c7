import type { Device, Element } from '../../circuit/types.ts';
import type { Primitive } from '../../drawing/types.ts';
import { DRIVERS, type DriverType } from '../../trade/drivers.ts';
import { definePart } from '../definePart.ts';
import { amount, choice } from '../settings.ts';
import { mark, stroke } from '../symbols.ts';
import type { Settings, Situation } from '../types.ts';
import { byBand, plain, withUnit } from '../values.ts';

const W = 100;
const H = 60;
const BASIS = DRIVERS.mosfet.source;
/** A base-emitter junction conducts from here, V, and takes this much when driven, V (textbook figures, from memory). */
const BASE = { fromV: 0.55, surelyV: 0.9 } as const;
/** A MOSFET begins to conduct well below the voltage at which its resistance is stated (share; common practice, no source). */
const GATE_BEGINS = 0.4;
/** Switches within microseconds; slower than anything else here is fast, s. */
const SWITCH_S = 1e-5;

/** One transistor that a pin switches: it joins its output to ground while the pin is high. */
export const lowSideDriver = definePart({
  kind: 'low-side-driver',
  title: 'Low-side driver',
  group: 'Switch',
  about: 'A transistor that a pin can switch: it joins the minus side of a coil, lamp or fan to ground. A pin alone is far too weak for those.',
  words: ['transistor', 'MOSFET', 'driver', 'relay driver', 'NPN', 'switch', 'open drain', 'open collector'],
  letter: 'Q',
  settings: [
    choice(
      'type',
      'Transistor',
      [
        ['mosfet', 'MOSFET'],
        ['bipolar', 'bipolar, with base resistor'],
      ],
      'printed on the part; most modules have a MOSFET',
    ),
    amount('fullV', 'Resistance stated at a gate voltage of', 'V', [1, DRIVERS.mosfet.fullV, 15], BASIS, {
      help: 'Ordinary types state it at 10 V, which no pin gives. Ones for logic state it at 2.5 V.',
    }),
    amount('onOhm', 'Resistance when on', 'ohm', [0.0005, DRIVERS.mosfet.onOhm, 20], BASIS),
    amount('baseOhm', 'Base resistor', 'ohm', [100, DRIVERS.bipolar.baseOhm, 100e3], 'of the bipolar type; common practice, no source', { rare: true }),
    amount('pullDownOhm', 'Resistor that keeps it off', 'ohm', [1e3, DRIVERS.mosfet.pullDownOhm, 10e6], 'from input to ground; common practice, no source', {
      help: 'Holds it off until the computer is up and drives the pin.',
    }),
    amount('maxV', 'Stands when off', 'V', [5, DRIVERS.mosfet.maxV, 400], BASIS),
    amount('ratedA', 'Rated current', 'A', [0.01, DRIVERS.mosfet.ratedA, 100], BASIS),
  ],
  variants: (Object.keys(DRIVERS) as DriverType[]).map((id) => ({ id, title: DRIVERS[id].title, settings: id === 'mosfet' ? {} : settingsOf(id) })),
  terminals: () => [
    { id: 'in', label: 'in', title: 'Input, from the pin', side: 'left', form: 'screw', role: 'signal', flow: 'in', required: true },
    { id: 'out', label: 'out', title: 'Joined to ground while the input is high', side: 'right', form: 'screw', role: 'any', flow: 'in', required: true },
    { id: 'gnd', label: 'gnd', title: 'Ground', side: 'right', form: 'screw', role: 'ground', flow: 'out', required: true },
  ],
  symbol: () => ({
    w: W,
    h: H,
    primitives: picture(),
    pads: { in: { x: 0, y: 30, side: 'left' }, out: { x: W, y: 20, side: 'right' }, gnd: { x: W, y: 40, side: 'right' } },
  }),
  behave: (s, situation) => ({ elements: elements(s, situation), devices: [device(s, situation)] }),
  facts: (s) => ({
    links: [
      { a: 'out', b: 'gnd', type: 'contact', contact: 'no' },
      { a: 'in', b: 'gnd', type: 'resistor', ohm: s.num('pullDownOhm') },
    ],
  }),
  subtitle: (s) => `${plain(s.num('maxV'))} V, ${plain(s.num('ratedA'))} A`,
  spec: (s) => {
    const switched =
      s.str('type') === 'mosfet'
        ? `MOSFET, at most ${withUnit(s.num('onOhm'), 'ohm')} at a gate voltage of ${plain(s.num('fullV'))} V`
        : `bipolar, base resistor ${withUnit(s.num('baseOhm'), 'ohm')}`;
    return `Low-side driver, ${switched}, ${plain(s.num('maxV'))} V, ${plain(s.num('ratedA'))} A, ${withUnit(s.num('pullDownOhm'), 'ohm')} from input to ground`;
  },
  meterPoints: () => [
    { plus: 'in', minus: 'gnd', what: '3.3 V to switch on, 0 V while the computer starts' },
    { plus: 'out', minus: 'gnd', what: 'a few hundredths of a volt when on, the supply when off' },
  ],
});

function settingsOf(id: DriverType): Record<string, string | number> {
  const { title: _title, basis: _basis, source: _source, type, ...figures } = DRIVERS[id];
  return { type, ...figures };
}

function elements(s: Settings, { on }: Situation): Element[] {
  const base: Element[] =
    s.str('type') === 'bipolar'
      ? [
          { kind: 'resistor', id: 'base', a: 'in', b: '~base', ohm: s.num('baseOhm'), tol: { ohm: 0.05 } },
          { kind: 'diode', id: 'junction', a: '~base', b: 'gnd', vF: 0.7, iF: 0.001, n: 1, tC: 25, ohm: 1 },
        ]
      : [];
  return [
    ...base,
    { kind: 'resistor', id: 'pull', a: 'in', b: 'gnd', ohm: s.num('pullDownOhm'), tol: { ohm: 0.05 } },
    { kind: 'resistor', id: 'switch', a: 'out', b: 'gnd', ohm: on('switch') ? s.num('onOhm') : Number.POSITIVE_INFINITY, tol: { ohm: [0.5, 1.6] } },
  ];
}

/** On above what the weakest sample needs in the low band, and above what the keenest already takes for "on" in the high one. */
function device(s: Settings, { band }: Situation): Device {
  const [most, least] = s.str('type') === 'bipolar' ? [BASE.surelyV, BASE.fromV] : [s.num('fullV'), GATE_BEGINS * s.num('fullV')];
  const onV = byBand(band, most, least);
  return { id: 'switch', wants: (probe) => probe.volts('in') - probe.volts('gnd') > onV, operateS: SWITCH_S, releaseS: SWITCH_S };
}

/** Transistor with insulated gate (IEC 60617, from memory): gate plate at the left, channel with its two leads at the right. */
function picture(): Primitive[] {
  return [
    { t: 'rect', x: 0, y: 0, w: W, h: H, r: 4, fill: 'paper', ink: 'ink', lw: 1.5 },
    stroke([0, 30, 42, 30]),
    stroke([42, 20, 42, 40]),
    stroke([48, 18, 48, 42], 'ink', 2.5),
    stroke([48, 20, W, 20]),
    stroke([48, 40, W, 40]),
    { t: 'poly', pts: [66, 40, 58, 36.5, 58, 43.5], fill: 'ink' },
    mark(84, 14, 'out', 8.5, 'soft'),
    mark(84, 49, 'gnd', 8.5, 'soft'),
    mark(12, 24, 'in', 8.5, 'soft'),
  ];
}
