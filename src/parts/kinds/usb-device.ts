import { definePart } from '../definePart.ts';
import { amount, words } from '../settings.ts';
import { moduleBox } from '../symbols.ts';

/** Below this a USB device has stopped and draws little, V (common practice, no source). */
const STOPS_V = 3;

/** Anything that hangs on a USB port and is fed by it. */
export const usbDevice = definePart({
  kind: 'usb-device',
  title: 'USB device',
  group: 'Compute',
  about: 'A card reader, modem, position receiver or radio stick that is fed and read through one USB plug.',
  words: ['modem', 'reader', 'gps', 'gnss', 'stick', 'keyboard', 'hub', 'storage'],
  letter: 'A',
  settings: [
    words('what', 'What it is', '', 'your own word for it'),
    amount('typA', 'Typical current', 'A', [0, 0.2, 3], 'common practice, no source: measure it or take the maker’s figure'),
    amount('peakA', 'Greatest current', 'A', [0, 0.5, 3], 'USB 2.0: one port gives a device up to 0.5 A (from memory)'),
  ],
  variants: [
    { id: 'plain', title: 'USB device', settings: {} },
    // Position receiver: 30 mA tracking, 67 mA at worst. From memory of module makers' sheets.
    { id: 'position', title: 'Position receiver', settings: { what: 'Position receiver', typA: 0.03, peakA: 0.067 } },
    // Cellular modem, category 4, on USB: 0.55 A moving data, 1.5 A peak. From memory of module makers' manuals.
    { id: 'modem', title: 'Cellular modem', settings: { what: 'Cellular modem', typA: 0.55, peakA: 1.5 } },
  ],
  terminals: () => [{ id: 'usb', label: 'USB', title: 'USB plug', side: 'left', form: 'usb', role: 'usb-data', flow: 'in', nominalV: 5, required: true }],
  symbol: () => moduleBox({ left: ['usb'] }, 100, 60),
  behave: (s, { load }) => ({
    elements: [
      {
        kind: 'current',
        id: 'load',
        a: 'usb',
        b: 'usb~0',
        amp: { heavy: Math.max(s.num('peakA'), s.num('typA')), typical: s.num('typA'), light: s.num('typA') / 2 }[load],
        minV: STOPS_V,
      },
    ],
  }),
  facts: (s) => ({
    loads: [
      {
        plus: 'usb',
        minus: 'usb~0',
        label: s.str('what') || 'USB device',
        nominalV: 5,
        // USB 2.0: 4.40 V least at the device for up to 0.1 A, 4.50 V above (from memory).
        minV: s.num('peakA') > 0.1 ? 4.5 : 4.4,
        maxV: 5.25,
        absMaxV: 5.5,
        peakA: Math.max(s.num('peakA'), s.num('typA')),
        heatA: s.num('typA'),
      },
    ],
  }),
  subtitle: (s) => s.str('what') || `${s.num('typA')} A`,
  spec: (s) => `${s.str('what') || 'USB device'}, at most ${s.num('peakA')} A`,
});
