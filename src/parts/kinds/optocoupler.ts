import type { Primitive } from '../../drawing/types.ts';
import { OPTOS, type OptoFacts, type OptoType } from '../../trade/semiconductors.ts';
import { definePart } from '../definePart.ts';
import { choice } from '../settings.ts';
import { mark, stroke } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { plain } from '../values.ts';

/** Emission coefficient of the infrared LED inside (1.2 V at 20 mA, about 1.07 V at 1 mA: typical curve, from memory). */
const N = 1.7;
/** Least forward voltage: a hot LED of a low sample, V (common practice, no source). */
const VF_MIN_V = 1.0;
/** What ten years leave of the transfer ratio, and what 85 degrees C leaves of it (common practice, no source). */
const AGED = 0.7;
const HOT = { c: 85, left: 0.7 } as const;

const TYPES: readonly OptoType[] = ['817a', '817b', '4n25', '4n35'];

/** Light from one side to the other, no conductor between: brings a vehicle signal to a pin. */
export const optocoupler = definePart({
  kind: 'optocoupler',
  title: 'Optocoupler',
  group: 'Sense',
  about: 'An LED that lights a transistor in the same package: tells a pin that a vehicle wire is live without joining the two.',
  words: ['isolator', 'key sensor', '817', '4n25', '4n35', 'opto'],
  letter: 'U',
  settings: [
    choice(
      'type',
      'Type',
      TYPES.map((t) => [t, OPTOS[t].title] as const),
      'data sheets of each type (read)',
    ),
  ],
  variants: TYPES.map((type) => ({ id: type, title: OPTOS[type].title, settings: { type } })),
  terminals: () => [
    { id: 'A', label: 'A', title: 'LED anode, to the sensed wire’s resistor', side: 'left', form: 'lead', role: 'signal', flow: 'in', required: true },
    {
      id: 'K',
      label: 'K',
      title: 'LED cathode, to the sensed side’s ground',
      side: 'left',
      form: 'lead',
      role: 'ground',
      groundElsewhere: true,
      flow: 'in',
      required: true,
    },
    { id: 'C', label: 'C', title: 'Collector, to the pin', side: 'right', form: 'lead', role: 'signal', flow: 'out', required: true },
    {
      id: 'E',
      label: 'E',
      title: 'Emitter, to the computer’s 0 V',
      side: 'right',
      form: 'lead',
      role: 'ground',
      groundElsewhere: true,
      flow: 'out',
      required: true,
    },
  ],
  symbol: () => ({
    w: 90,
    h: 60,
    primitives: picture(),
    pads: {
      A: { x: 0, y: 20, side: 'left' },
      K: { x: 0, y: 40, side: 'left' },
      C: { x: 90, y: 20, side: 'right' },
      E: { x: 90, y: 40, side: 'right' },
    },
  }),
  behave: (s, { ambientC }) => {
    const o = typeOf(s);
    return {
      elements: [
        {
          kind: 'opto',
          id: 'opto',
          a: 'A',
          k: 'K',
          c: 'C',
          e: 'E',
          vF: o.vFTypV,
          iF: o.vFTestA,
          n: N,
          tC: ambientC,
          ctr: o.ctrTyp * heatFactor(ambientC),
          vCeSat: o.vCeSatMaxV,
          darkA: darkAt(o, ambientC),
          tol: { vF: [VF_MIN_V / o.vFTypV, o.vFMaxV / o.vFTypV], ctr: [(AGED * o.ctrMin) / o.ctrTyp, o.ctrMax / o.ctrTyp], darkA: [0, 1] },
        },
      ],
    };
  },
  facts: (s) => ({
    links: [
      { a: 'A', b: 'K', type: 'diode' },
      { a: 'C', b: 'E', type: 'contact', contact: 'no' },
    ],
    polar: [
      { plus: 'A', minus: 'K', what: 'LED of the optocoupler', reverseV: typeOf(s).reverseV },
      { plus: 'C', minus: 'E', what: 'transistor of the optocoupler', reverseV: 6 },
    ],
  }),
  subtitle: (s) => typeOf(s).title,
  spec: (s) => {
    const o = typeOf(s);
    return `Optocoupler ${o.title}, transfer ratio ${plain(o.ctrMin * 100)} % or more at ${plain(o.ctrTestA * 1000)} mA`;
  },
  meterPoints: () => [
    { plus: 'A', minus: 'K', what: 'about 1.1 V with the sensed wire live, 0 V dead' },
    { plus: 'C', minus: 'E', what: 'below 0.4 V with the sensed wire live, about 3.3 V dead' },
  ],
});

function typeOf(s: Settings): OptoFacts {
  return OPTOS[s.str('type') as OptoType];
}

/** Share of the transfer ratio left at a temperature: all at 25 degrees C and below, then a line through 0.7 at 85. */
function heatFactor(tempC: number): number {
  return Math.min(1, 1 - ((1 - HOT.left) * (tempC - 25)) / (HOT.c - 25));
}

/** Greatest dark current, A: doubles each 10 K above its 25 degrees C figure (common practice, no source). */
function darkAt(o: OptoFacts, tempC: number): number {
  return o.darkA * 2 ** ((tempC - 25) / 10);
}

/** LED on the left, transistor on the right, two slanted arrows from one to the other (IEC 60617, from memory). */
function picture(): Primitive[] {
  const arrow = (y: number): Primitive[] => [
    stroke([40, y, 51, y + 5], 'ink', 1),
    { t: 'poly', pts: [54, y + 6.5, 49.5, y + 6.8, 51.4, y + 2.8], fill: 'ink' },
  ];
  return [
    { t: 'rect', x: 0, y: 0, w: 90, h: 60, r: 4, fill: 'paper', ink: 'ink', lw: 1.5 },
    stroke([0, 20, 26, 20, 26, 40, 0, 40]),
    { t: 'poly', pts: [19, 25, 33, 25, 26, 35], fill: 'paper', ink: 'ink', lw: 1.5 },
    stroke([19, 35, 33, 35]),
    ...(['A', 'K'] as const).map((id, i) => mark(9, 14 + 20 * i, id, 8.5, 'soft')),
    ...(['C', 'E'] as const).map((id, i) => mark(81, 14 + 20 * i, id, 8.5, 'soft')),
    ...arrow(22),
    ...arrow(30),
    stroke([62, 20, 62, 40], 'ink', 2.5),
    stroke([62, 27, 74, 20, 90, 20]),
    stroke([62, 33, 74, 40, 90, 40]),
    { t: 'poly', pts: [74, 40, 67.5, 39.3, 70.2, 34.7], fill: 'ink' },
  ];
}
