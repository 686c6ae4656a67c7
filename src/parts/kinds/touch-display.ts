import { DISPLAYS, type DisplayFacts, type DisplaySize, displayA } from '../../trade/loads.ts';
import { climateSettings } from '../climate.ts';
import { definePart } from '../definePart.ts';
import { JOIN_OHM, VIDEO_OHM } from '../joints.ts';
import { amount, choice } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { plain, withUnit } from '../values.ts';

/** The touch layer's own draw from its USB plug, A (from memory of display makers' sheets). */
const TOUCH_A = 0.03;
/** Below this the display is dark and draws little, V (common practice, no source). */
const DARK_V = 3.5;
/** Brightness input: 10 kohm to 0 V (common practice, no source). */
const BRIGHTNESS_OHM = 10e3;

const SIZES: readonly DisplaySize[] = ['7', '4.3', '5', '7-bright', '10'];

/** A screen with touch, fed with 5 V by a pair of its own. */
export const touchDisplay = definePart({
  kind: 'touch-display',
  title: 'Touch display',
  group: 'Compute',
  about: 'A screen with touch. Give it a supply pair of its own: its current must not come home through the picture lead.',
  words: ['screen', 'monitor', 'panel', 'backlight'],
  letter: 'P',
  settings: [
    choice(
      'size',
      'Size',
      SIZES.map((size) => [size, DISPLAYS[size].title] as const),
      'currents: display makers’ questions pages and memory; measure your own',
    ),
    amount('brightness', 'Brightness', '%', [0, 0.8, 1], 'common practice, no source; the backlight takes nine tenths of the power (read)'),
    amount('dimHz', 'Dimmed by pulses, so many a second', 'Hz', [0, 0, 1e6], '0 = not known: it stands in the program that dims', {
      help: 'Matters where its brightness input is joined and sound is played: between 100 Hz and 20 kHz the pulses can be heard.',
      rare: true,
    }),
    amount('typA', 'Current at that brightness', 'A', [0, 0, 5], '0 = by size and brightness', { rare: true }),
    amount('peakA', 'Greatest current', 'A', [0, 0, 5], '0 = by size', { rare: true }),
    ...climateSettings(-20, 70, 'displays for vehicles and industry; common practice, no source: office ones bear 0 to 50 °C'),
  ],
  variants: SIZES.map((size) => ({ id: size, title: DISPLAYS[size].title, settings: { size } })),
  terminals: () => [
    { id: '5v', label: '5 V', title: 'Supply, 5 V', side: 'left', form: 'screw', role: 'rail5', flow: 'in', nominalV: 5, required: true },
    { id: '0v', label: '0 V', title: 'Supply, 0 V', side: 'left', form: 'screw', role: 'ground', flow: 'in', required: true },
    { id: 'video', label: 'video', title: 'Picture', side: 'left', form: 'video', role: 'video', flow: 'in' },
    { id: 'touch', label: 'touch', title: 'Touch, USB', side: 'left', form: 'usb', role: 'usb-data', flow: 'in', nominalV: 5 },
    { id: 'bl', label: 'dim', title: 'Brightness input', side: 'left', form: 'lead', role: 'signal', flow: 'in' },
  ],
  symbol: () => moduleBox({ left: ['5v', '0v', 'video', 'touch', 'bl'] }, 140, 120),
  behave: (s, { load, wired }) => ({
    elements: [
      {
        kind: 'current',
        id: 'load',
        a: '5v',
        b: '0v',
        amp: { heavy: peakA(s), typical: typicalA(s), light: Math.min(typicalA(s), sizeOf(s).darkA) }[load],
        minV: DARK_V,
      },
      ...(wired('video')
        ? [
            { kind: 'resistor' as const, id: 'video', a: 'video', b: '0v', ohm: VIDEO_OHM },
            { kind: 'resistor' as const, id: 'screen', a: 'video~0', b: '0v', ohm: JOIN_OHM },
          ]
        : []),
      ...(wired('touch')
        ? [
            { kind: 'current' as const, id: 'touchLoad', a: 'touch', b: 'touch~0', amp: TOUCH_A, minV: DARK_V },
            { kind: 'resistor' as const, id: 'touchScreen', a: 'touch~0', b: '0v', ohm: JOIN_OHM },
          ]
        : []),
      ...(wired('bl') ? [{ kind: 'resistor' as const, id: 'dim', a: 'bl', b: '0v', ohm: BRIGHTNESS_OHM }] : []),
    ],
  }),
  facts: (s) => ({
    loads: [
      {
        plus: '5v',
        minus: '0v',
        label: 'Touch display',
        nominalV: 5,
        minV: 4.75,
        maxV: 5.25,
        // Absolute limit of 5 V logic parts (from memory).
        absMaxV: 6,
        peakA: peakA(s),
        heatA: peakA(s),
      },
    ],
    links: [
      { a: 'video~0', b: '0v', type: 'join' },
      { a: 'touch~0', b: '0v', type: 'join' },
    ],
    polar: [{ plus: '5v', minus: '0v', what: 'display' }],
  }),
  subtitle: (s) => `${sizeOf(s).title.split(' ')[0]}, ${plain(s.num('brightness') * 100)} %`,
  spec: (s) => `${sizeOf(s).title}, 5 V, at most ${withUnit(peakA(s), 'A')}`,
  meterPoints: () => [{ plus: '5v', minus: '0v', what: '4.75 to 5.25 V with the picture white and bright' }],
});

function sizeOf(s: Settings): DisplayFacts {
  return DISPLAYS[s.str('size') as DisplaySize];
}

function typicalA(s: Settings): number {
  return s.num('typA') || displayA(s.str('size') as DisplaySize, s.num('brightness'));
}

function peakA(s: Settings): number {
  return Math.max(s.num('peakA') || sizeOf(s).worstA, typicalA(s));
}
