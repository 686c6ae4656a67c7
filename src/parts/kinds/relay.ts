import type { Element } from '../../circuit/types.ts';
import type { Pad, Primitive } from '../../drawing/types.ts';
import { DIODES } from '../../trade/semiconductors.ts';
import { COIL_S, coilReleaseS, contactElement } from '../contacts.ts';
import { definePart } from '../definePart.ts';
import { diodeElement } from '../diodes.ts';
import { amount, choice } from '../settings.ts';
import { coilGlyph, stroke, strokes } from '../symbols.ts';
import type { Link, PartFacts, Settings, Situation } from '../types.ts';
import { byBand, copperFactor, plain, withUnit } from '../values.ts';

const W = 120;
const H = 80;
const PADS: Readonly<Record<string, Pad>> = {
  '30': { x: 0, y: 30, side: 'left' },
  '86': { x: 0, y: 60, side: 'left' },
  '87a': { x: W, y: 20, side: 'right' },
  '87': { x: W, y: 40, side: 'right' },
  '85': { x: W, y: 60, side: 'right' },
};

/** Plug-in relay with a changeover contact. */
export const relay = definePart({
  kind: 'relay',
  title: 'Relay',
  group: 'Switch',
  about: 'A small current through its coil moves a strong contact: 30 to 87 when energised, 30 to 87a at rest.',
  words: ['relay', 'coil', 'changeover', 'contact', '30', '85', '86', '87', '87a'],
  letter: 'K',
  settings: [
    amount('coilV', 'Coil made for', 'V', [5, 12, 24], 'as printed on it'),
    amount('coilOhm', 'Coil resistance at 20 °C', 'ohm', [10, 90, 5000], 'vehicle relay of 12 V, 1.6 W; a maker’s sheet, from memory', {
      help: 'Hot copper has more: over 20 % at 80 °C.',
    }),
    amount('pullInV', 'Pulls in at, at the latest, 20 °C', 'V', [1, 7.2, 20], 'a relay maker’s sheet, read: 7.2 V (12 V coil), 14.8 V (24 V coil)'),
    amount('dropOutV', 'Lets go at, at the earliest, 20 °C', 'V', [0.2, 1.2, 15], 'a tenth of the coil voltage, makers’ sheets, from memory', { rare: true }),
    amount('dropOutMaxV', 'Lets go at, at the latest, 20 °C', 'V', [0.3, 4.8, 18], '0.4 of the coil voltage; common practice, no source', { rare: true }),
    amount('riseK', 'Coil runs warmer by', 'K', [0, 52, 120], 'a relay maker’s sheet, read', { rare: true }),
    amount('coilMaxC', 'Coil may get as warm as', 'degC', [70, 155, 220], 'insulation class F of IEC 60085 (from memory)', { rare: true }),
    amount('contactA', 'Contact rating', 'A', [0.1, 30, 300], 'plug-in relay, DC at 14 V; common practice, no source'),
    choice(
      'suppression',
      'Spike killer across the coil',
      [
        ['none', 'none'],
        ['diode', 'diode'],
        ['resistor', 'resistor'],
      ],
      'as drawn on the relay; worst assumed',
      { help: 'Without one the coil answers switching off with 100 V and more. With a diode, 86 must be the positive side.' },
    ),
    amount('suppressionOhm', 'Its resistor', 'ohm', [50, 680, 5000], 'built-in resistors of 12 V relays, from memory', { rare: true }),
  ],
  variants: [
    { id: '12v', title: '12 V, 30 A', settings: {} },
    { id: '12v-diode', title: '12 V, 30 A, with diode', settings: { suppression: 'diode' } },
    { id: '12v-resistor', title: '12 V, 30 A, with resistor', settings: { suppression: 'resistor' } },
    {
      id: '24v-diode',
      title: '24 V, 20 A, with diode',
      settings: { coilV: 24, coilOhm: 350, pullInV: 14.8, dropOutV: 2.4, dropOutMaxV: 9.6, contactA: 20, suppression: 'diode' },
    },
  ],
  terminals: () => [
    { id: '30', label: '30', title: 'Contact, common', side: 'left', form: 'blade', role: 'any', flow: 'in' },
    { id: '87a', label: '87a', title: 'Contact, closed at rest', side: 'right', form: 'blade', role: 'any', flow: 'out' },
    { id: '87', label: '87', title: 'Contact, closed when energised', side: 'right', form: 'blade', role: 'any', flow: 'out' },
    { id: '86', label: '86', title: 'Coil, positive side', side: 'left', form: 'blade', role: 'coil', flow: 'in', required: true },
    { id: '85', label: '85', title: 'Coil, negative side', side: 'right', form: 'blade', role: 'coil', flow: 'out', required: true },
  ],
  symbol: (s) => ({ w: W, h: H, primitives: drawing(s), pads: PADS }),
  behave: (s, situation) => {
    const on = situation.on('coil');
    const [pullInV, dropOutV] = thresholds(s, situation);
    return {
      elements: [
        {
          kind: 'resistor',
          id: 'coil',
          a: '86',
          b: '85',
          ohm: s.num('coilOhm') * copperFactor(situation.ambientC),
          tol: { ohm: 0.1 },
        },
        contactElement('no', '30', '87', on, 'relay'),
        contactElement('nc', '30', '87a', !on, 'relay'),
        ...suppressor(s, situation.ambientC),
      ],
      devices: [
        {
          id: 'coil',
          wants: (probe, is) => probe.volts('86') - probe.volts('85') > (is ? dropOutV : pullInV),
          operateS: COIL_S.operate,
          releaseS: coilReleaseS(s),
        },
      ],
    };
  },
  facts: (s) => {
    const coilA = s.num('coilV') / s.num('coilOhm');
    const facts: PartFacts = {
      links: linksOf(s),
      loads: [
        {
          plus: '86',
          minus: '85',
          label: 'coil',
          nominalV: s.num('coilV'),
          minV: s.num('pullInV'),
          maxV: s.num('coilV') * (4 / 3),
          absMaxV: null,
          peakA: coilA / 0.9,
          heatA: coilA,
        },
      ],
    };
    return s.str('suppression') === 'diode' ? { ...facts, polar: [{ plus: '86', minus: '85', what: 'coil with diode', reverseV: 0 }] } : facts;
  },
  subtitle: (s) => `${plain(s.num('coilV'))} V coil, ${plain(s.num('contactA'))} A`,
  spec: (s) => {
    const killer = {
      none: 'no spike killer',
      diode: 'diode across the coil (86 positive)',
      resistor: `${withUnit(s.num('suppressionOhm'), 'ohm')} across the coil`,
    };
    return `Changeover relay, ${plain(s.num('coilV'))} V coil ${withUnit(s.num('coilOhm'), 'ohm')}, pulls in by ${plain(s.num('pullInV'))} V, contact ${plain(s.num('contactA'))} A DC, ${killer[s.str('suppression') as keyof typeof killer]}, with socket`;
  },
  meterPoints: () => [
    { plus: '86', minus: '85', what: 'Coil: system voltage when it should be drawn in' },
    { plus: '30', minus: '87', what: 'Drop across the closed contact under load' },
  ],
});

/** Pull-in of a coil that is as cold as its surroundings, and drop-out of one warmed by its own current, V. */
function thresholds(s: Settings, { band, ambientC }: Situation): readonly [pullInV: number, dropOutV: number] {
  const latest = s.num('pullInV');
  const pullInV = byBand(band, latest, latest * 0.7) * copperFactor(ambientC);
  const dropOutV = byBand(band, s.num('dropOutMaxV') * copperFactor(ambientC + s.num('riseK')), s.num('dropOutV') * copperFactor(ambientC));
  return [pullInV, Math.min(dropOutV, 0.95 * pullInV)];
}

function suppressor(s: Settings, tC: number): Element[] {
  if (s.str('suppression') === 'diode') return [diodeElement('suppression', '85', '86', DIODES['1n4007'], tC)];
  if (s.str('suppression') === 'resistor') {
    return [{ kind: 'resistor', id: 'suppression', a: '86', b: '85', ohm: s.num('suppressionOhm'), tol: { ohm: 0.1 } }];
  }
  return [];
}

function linksOf(s: Settings): Link[] {
  const links: Link[] = [
    { a: '30', b: '87', type: 'contact', contact: 'no', group: 'changeover' },
    { a: '30', b: '87a', type: 'contact', contact: 'nc', group: 'changeover' },
    { a: '86', b: '85', type: 'coil', ohm: s.num('coilOhm') },
  ];
  if (s.str('suppression') === 'diode') links.push({ a: '85', b: '86', type: 'diode' });
  if (s.str('suppression') === 'resistor') links.push({ a: '86', b: '85', type: 'resistor', ohm: s.num('suppressionOhm') });
  return links;
}

/** Block with the changeover contact at rest above the coil; lines keep clear of the terminal numbers at the edges. */
function drawing(s: Settings): Primitive[] {
  const contact = strokes([
    [24, 30, 44, 30, 74, 21],
    [72, 20, 92, 20],
    [72, 40, 92, 40],
    [24, 60, 46, 60],
    [74, 60, 92, 60],
  ]);
  return [
    { t: 'rect', x: 0, y: 0, w: W, h: H, r: 4, fill: 'paper', ink: 'ink', lw: 1.5 },
    ...contact,
    { t: 'line', pts: [60, 53, 60, 26], ink: 'soft', w: 1, dash: [3, 2] },
    ...coilGlyph(60, 60),
    ...suppressorDrawing(s.str('suppression')),
  ];
}

function suppressorDrawing(type: string): Primitive[] {
  if (type === 'none') return [];
  const round = stroke([38, 60, 38, 73, 82, 73, 82, 60], 'ink', 1);
  if (type === 'resistor') return [round, { t: 'rect', x: 51, y: 70, w: 18, h: 6, fill: 'paper', ink: 'ink', lw: 1 }];
  return [round, { t: 'poly', pts: [64, 69.5, 64, 76.5, 57, 73], fill: 'ink' }, stroke([57, 69.5, 57, 76.5], 'ink', 1)];
}
