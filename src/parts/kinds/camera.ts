import { CASE_OHM } from '../../trade/grounds.ts';
import { climateSettings } from '../climate.ts';
import { definePart } from '../definePart.ts';
import { JOIN_OHM, VIDEO_OHM } from '../joints.ts';
import { amount, choice, yesNo } from '../settings.ts';
import { moduleBox } from '../symbols.ts';

/** A camera fed from the vehicle side. */
export const camera = definePart({
  kind: 'camera',
  title: 'Camera',
  group: 'Sound and picture',
  about: 'A camera with its own supply pair and a picture lead. At night its lamps draw more.',
  words: ['reverse', 'rear view', 'picture', 'video'],
  letter: 'B',
  settings: [
    amount('minV', 'Least supply', 'V', [3, 9, 60], 'common 12 V camera sheets (common practice, no source)'),
    amount('maxV', 'Greatest working supply', 'V', [3, 16, 100], 'common 12 V camera sheets (common practice, no source)'),
    amount('absMaxV', 'Supply that destroys it', 'V', [3, 18, 120], 'assumed just above the working range: take the maker’s figure'),
    amount('typA', 'Current by day', 'A', [0.01, 0.15, 5], 'common practice, no source: measure it'),
    amount('nightA', 'Current with night lamps', 'A', [0.01, 0.45, 5], 'common practice, no source: measure it in the dark'),
    choice(
      'link',
      'Picture lead',
      [
        ['composite', 'composite, coaxial'],
        ['usb', 'USB'],
        ['hdmi', 'digital video plug'],
        ['ribbon', 'flat ribbon'],
      ],
      'printed on the camera or its plug',
    ),
    yesNo('shellBonded', 'Its metal shell is joined to its minus', false, 'many shells are insulated; common practice, no source', {
      help: 'Bolted to the body, such a shell grounds the picture lead a second time: an ohmmeter tells.',
      rare: true,
    }),
    amount('startS', 'Shows a picture after', 's', [0, 2, 30], '1 s to 3 s; common practice, no source', { rare: true }),
    amount('lateS', 'Its picture runs late by', 's', [0, 0.3, 10], 'camera, link and screen together; common practice, no source', { rare: true }),
    ...climateSettings(-30, 80, 'vehicle cameras; common practice, no source'),
  ],
  variants: [
    { id: '12', title: 'Camera 9 to 16 V', settings: {} },
    { id: 'wide', title: 'Camera 9 to 36 V', settings: { maxV: 36, absMaxV: 60 } },
  ],
  terminals: () => [
    { id: '+', label: '+', title: 'Supply plus', side: 'left', form: 'lead', role: 'supply', flow: 'in', required: true },
    { id: '-', label: '−', title: 'Supply minus', side: 'left', form: 'lead', role: 'ground', flow: 'in', required: true },
    { id: 'video', label: 'video', title: 'Picture lead', side: 'right', form: 'video', role: 'video', flow: 'out', required: true },
  ],
  symbol: () => moduleBox({ left: ['+', '-'], right: ['video'] }, 120, 60),
  behave: (s, { load }) => ({
    elements: [
      {
        kind: 'current',
        id: 'load',
        a: '+',
        b: '-',
        amp: { heavy: Math.max(s.num('nightA'), s.num('typA')), typical: s.num('typA'), light: s.num('typA') }[load],
        // Stops well below its least supply; two thirds is assumed.
        minV: (2 / 3) * s.num('minV'),
      },
      { kind: 'source', id: 'out', a: 'video', b: '-', volt: 0, ohm: VIDEO_OHM },
      { kind: 'resistor', id: 'screen', a: 'video~0', b: '-', ohm: JOIN_OHM },
      ...(s.flag('shellBonded') ? [{ kind: 'resistor' as const, id: 'shell', a: '-', b: '@chassis', ohm: CASE_OHM }] : []),
    ],
  }),
  facts: (s) => ({
    loads: [
      {
        plus: '+',
        minus: '-',
        label: 'Camera',
        nominalV: s.num('minV') > 16 ? 24 : 12,
        minV: s.num('minV'),
        maxV: s.num('maxV'),
        absMaxV: s.num('absMaxV'),
        peakA: Math.max(s.num('nightA'), s.num('typA')),
        heatA: Math.max(s.num('nightA'), s.num('typA')),
      },
    ],
    links: [{ a: 'video~0', b: '-', type: 'join' }, ...(s.flag('shellBonded') ? [{ a: '-', b: '@chassis', type: 'conductor' as const, ohm: CASE_OHM }] : [])],
    polar: [{ plus: '+', minus: '-', what: 'camera' }],
  }),
  subtitle: (s) => `${s.num('minV')} to ${s.num('maxV')} V`,
  spec: (s) => `Camera, ${s.num('minV')} to ${s.num('maxV')} V, at most ${s.num('nightA')} A, ${s.str('link')} picture`,
  meterPoints: (s) => [{ plus: '+', minus: '-', what: `supply at the camera, never below ${s.num('minV')} V` }],
});
