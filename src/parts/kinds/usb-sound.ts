import { definePart } from '../definePart.ts';
import { JOIN_OHM } from '../joints.ts';
import { amount } from '../settings.ts';
import { moduleBox } from '../symbols.ts';

/** A sound adapter on USB with one stereo line output. */
export const usbSound = definePart({
  kind: 'usb-sound',
  title: 'USB sound adapter',
  group: 'Sound and picture',
  about: 'Turns the computer’s sound into a line-level signal for the radio. Its jack’s screen is the computer’s 0 V.',
  words: ['audio', 'sound card', 'headphone', 'jack', 'dac'],
  letter: 'A',
  settings: [
    amount('typA', 'Current', 'A', [0.005, 0.1, 1], 'worst of common adapters, from memory; about 0.06 A typical, 0.03 A silent'),
    amount('outV', 'Greatest output', 'V', [0.1, 1, 4], 'rms at full level, common adapters (from memory)'),
  ],
  terminals: () => [
    { id: 'usb', label: 'USB', title: 'USB plug', side: 'left', form: 'usb', role: 'usb-data', flow: 'in', nominalV: 5, required: true },
    { id: 'line', label: 'line', title: 'Line output', side: 'right', form: 'jack', role: 'audio', flow: 'out', required: true },
  ],
  symbol: () => moduleBox({ left: ['usb'], right: ['line'] }, 120, 60),
  behave: (s, { load }) => ({
    elements: [
      {
        kind: 'current',
        id: 'load',
        a: 'usb',
        b: 'usb~0',
        amp: { heavy: s.num('typA'), typical: 0.6 * s.num('typA'), light: 0.3 * s.num('typA') }[load],
        minV: 3,
      },
      // At rest the output carries no signal: 0 V behind the output resistor (100 ohm, common practice, no source).
      { kind: 'source', id: 'out', a: 'line', b: 'usb~0', volt: 0, ohm: 100 },
      { kind: 'resistor', id: 'screen', a: 'line~0', b: 'usb~0', ohm: JOIN_OHM },
    ],
  }),
  facts: (s) => ({
    loads: [
      {
        plus: 'usb',
        minus: 'usb~0',
        label: 'USB sound adapter',
        nominalV: 5,
        minV: 4.4,
        maxV: 5.25,
        absMaxV: 5.5,
        peakA: s.num('typA'),
        heatA: s.num('typA'),
      },
    ],
    sources: [{ terminal: 'line', returns: 'line~0', kind: 'audio', nominalV: s.num('outV'), limitA: s.num('outV') / 100, maxOhm: 100, minOhm: 100 }],
    links: [{ a: 'line~0', b: 'usb~0', type: 'join' }],
  }),
  subtitle: (s) => `${s.num('outV')} V line`,
  spec: (s) => `USB sound adapter, line output at most ${s.num('outV')} V`,
});
