import { climateSettings } from '../climate.ts';
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
  about: 'A card reader, camera, modem, position receiver or radio stick that is fed and read through one USB plug.',
  words: ['modem', 'reader', 'gps', 'gnss', 'stick', 'keyboard', 'storage'],
  letter: 'A',
  settings: [
    words('what', 'What it is', '', 'your own word for it'),
    amount('typA', 'Typical current', 'A', [0, 0.2, 3], 'common practice, no source: measure it or take the maker’s figure'),
    amount('peakA', 'Greatest current', 'A', [0, 0.5, 3], 'USB 2.0: one port gives a device up to 0.5 A (from memory)'),
    amount('burstA', 'Bursts of a sending modem', 'A', [0, 0, 5], '0 = none; a 2G modem takes about 2 A at 5 V (calculated from makers’ sheets, read)', {
      help: 'Far shorter than what a meter shows: only a capacitor at its plug helps.',
      rare: true,
    }),
    amount('burstS', 'A burst lasts', 's', [1e-5, 577e-6, 0.01], 'one time slot of eight in a 4.6 ms frame (read)', { rare: true }),
    amount('bufferF', 'Capacitor at its plug', 'F', [0, 0, 0.1], '0 = none', { rare: true, stocked: [470e-6, 1000e-6, 2200e-6, 4700e-6] }),
    amount('bufferOhm', 'Series resistance of that capacitor', 'ohm', [0.001, 0.03, 10], 'low-impedance electrolytic of 1000 µF; from memory', { rare: true }),
    ...climateSettings(-30, 85, 'module makers’ sheets −40 to 85 °C, plain sticks less; from memory'),
  ],
  variants: [
    { id: 'plain', title: 'USB device', settings: {} },
    { id: 'camera', title: 'USB camera', settings: { what: 'Camera' } },
    // Position receiver: 30 mA tracking, 67 mA at worst. From memory of module makers' sheets.
    { id: 'position', title: 'Position receiver', settings: { what: 'Position receiver', typA: 0.03, peakA: 0.067 } },
    // Cellular modem, category 4, on USB: 0.55 A moving data, 1.5 A peak. From memory of module makers' manuals.
    { id: 'modem', title: 'Cellular modem', settings: { what: 'Cellular modem', typA: 0.55, peakA: 1.5 } },
    // 2G sends in bursts of one slot in eight: 2.5 A at 3.8 V in the module (read), about 2 A at 5 V. The average is the heating figure.
    { id: 'modem-2g', title: 'Modem with 2G bursts', settings: { what: 'Modem, 2G', typA: 0.37, peakA: 0.37, burstA: 2 } },
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
