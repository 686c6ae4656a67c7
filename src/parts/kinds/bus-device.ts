import { definePart } from '../definePart.ts';
import { amount, choice, words } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import type { Settings, TerminalDef } from '../types.ts';

/** An input of a bus part (data sheets, from memory). */
const INPUT_OHM = 10e6;

/** Lines of each bus, as printed on boards. */
const LINES: Readonly<Record<string, readonly (readonly [id: string, label: string, title: string])[]>> = {
  i2c: [
    ['sda', 'SDA', 'Data, to GPIO 2'],
    ['scl', 'SCL', 'Clock, to GPIO 3'],
  ],
  'one-wire': [['data', 'DQ', 'Data, to any GPIO with a pull-up']],
  spi: [
    ['mosi', 'MOSI', 'Data to it, to GPIO 10'],
    ['miso', 'MISO', 'Data from it, to GPIO 9'],
    ['sclk', 'SCLK', 'Clock, to GPIO 11'],
    ['ce', 'CE', 'Chosen when low, to GPIO 8 or 7'],
  ],
};

/** A sensor or small board on one of the header's buses. */
export const busDevice = definePart({
  kind: 'bus-device',
  title: 'Sensor on a bus',
  group: 'Compute',
  about: 'A sensor, clock or converter on one of the header’s buses. Such buses are made for one board and do not reach far.',
  words: ['i2c', 'spi', 'one-wire', 'sensor', 'temperature', 'clock', 'bus'],
  letter: 'B',
  settings: [
    words('what', 'What it is', '', 'your own word for it'),
    choice(
      'bus',
      'Bus',
      [
        ['i2c', 'I2C'],
        ['one-wire', 'one-wire'],
        ['spi', 'SPI'],
      ],
      'printed beside its terminals',
    ),
    choice(
      'clock',
      'Clock of the bus',
      [
        ['100', '100 kHz'],
        ['400', '400 kHz'],
      ],
      'I2C as delivered runs at 100 kHz (board maker’s configuration page, from memory)',
      { help: 'A slower clock reaches further. Only I2C minds.' },
    ),
    choice(
      'level',
      'Its lines are high at',
      [
        ['supply', 'its own supply'],
        ['3v3', '3.3 V whatever its supply'],
      ],
      'worst assumed; boards for 5 V often have a regulator and a level shifter',
      { help: 'Measure a line at rest before it is joined to a pin.', rare: true },
    ),
    amount('typA', 'Current', 'A', [0, 0.005, 0.5], 'sensors take some milliamps; common practice, no source'),
  ],
  variants: [
    { id: 'i2c', title: 'Sensor, I2C', settings: {} },
    { id: 'one-wire', title: 'Sensor, one-wire', settings: { bus: 'one-wire' } },
    { id: 'spi', title: 'Sensor, SPI', settings: { bus: 'spi' } },
  ],
  terminals: (s) => [
    { id: '+', label: '+', title: 'Supply, 3.3 V', side: 'left', form: 'lead', role: 'rail3', flow: 'in', required: true },
    { id: '-', label: '−', title: '0 V', side: 'left', form: 'lead', role: 'ground', flow: 'in', required: true },
    ...linesOf(s).map(([id, label, title]): TerminalDef => ({ id, label, title, side: 'right', form: 'lead', role: 'signal', required: true })),
  ],
  symbol: (s) => moduleBox({ left: ['+', '-'], right: linesOf(s).map(([id]) => id) }, 120, Math.max(60, 20 * (linesOf(s).length + 1))),
  behave: (s, { wired }) => ({
    elements: [
      { kind: 'current', id: 'load', a: '+', b: '-', amp: s.num('typA'), minV: 2 },
      ...linesOf(s)
        .filter(([id]) => wired(id))
        .map(([id]) => ({ kind: 'resistor' as const, id, a: id, b: '-', ohm: INPUT_OHM })),
    ],
  }),
  facts: (s) => ({
    loads: [
      {
        plus: '+',
        minus: '-',
        label: s.str('what') || 'Sensor',
        nominalV: 3.3,
        minV: 3,
        maxV: s.str('level') === '3v3' ? 5.5 : 3.6,
        absMaxV: s.str('level') === '3v3' ? 6 : 5.5,
        peakA: s.num('typA'),
        heatA: s.num('typA'),
      },
    ],
    polar: [{ plus: '+', minus: '-', what: 'sensor' }],
  }),
  subtitle: (s) => s.str('what') || s.str('bus'),
  spec: (s) => `${s.str('what') || 'Sensor'}, ${s.str('bus')}, 3.3 V`,
  meterPoints: () => [{ plus: '+', minus: '-', what: '3.3 V' }],
});

function linesOf(s: Settings): (typeof LINES)[string] {
  return LINES[s.str('bus')]!;
}
