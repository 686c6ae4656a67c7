import { SERIAL_LEVELS, type SerialLevel } from '../../trade/links.ts';
import { definePart } from '../definePart.ts';
import { amount, choice, words } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import type { Settings } from '../types.ts';

/** It runs from so much of its least supply on (common practice, no source). */
const STARTS_SHARE = 0.9;
/** What its lines weigh when it is off or listens, ohm (common practice, no source). */
const OFF_OHM = 100e3;
const LEVELS: readonly SerialLevel[] = ['3v3', '5v', 'rs232'];

/** A device that talks over two crossed lines, one each way. */
export const serialDevice = definePart({
  kind: 'serial-device',
  title: 'Serial device',
  group: 'Compute',
  about: 'A position receiver, scale or radio that talks over two wires: its TX goes to the other’s RX and back. Its levels must be those of the pins.',
  words: ['uart', 'rs232', 'ttl', 'gps', 'gnss', 'position', 'receiver', 'tx', 'rx'],
  letter: 'B',
  settings: [
    words('what', 'What it is', '', 'your own word for it'),
    choice(
      'levels',
      'Its line levels',
      LEVELS.map((l) => [l, SERIAL_LEVELS[l].title] as const),
      'printed in its sheet; a nine-pin plug usually means ±12 V levels',
      { help: 'Only 3.3 V levels may meet a pin: 5 V harms it, and ±12 V destroys it.' },
    ),
    amount('minV', 'Least supply', 'V', [1.8, 3, 30], 'position modules 3 V to 5.5 V; makers’ sheets, from memory'),
    amount('maxV', 'Greatest supply', 'V', [2, 5.5, 60], 'position modules 3 V to 5.5 V; makers’ sheets, from memory'),
    amount('typA', 'Current', 'A', [0, 0.04, 3], 'position receiver 30 mA to 70 mA; makers’ sheets, from memory'),
  ],
  variants: [
    { id: '3v3', title: 'Serial device, 3.3 V levels', settings: {} },
    { id: 'rs232', title: 'Serial device, ±12 V levels', settings: { levels: 'rs232', minV: 9, maxV: 30 } },
  ],
  terminals: () => [
    { id: '+', label: '+', title: 'Supply plus', side: 'left', form: 'lead', role: 'any', flow: 'in', required: true },
    { id: '-', label: '−', title: 'Supply minus and signal ground', side: 'left', form: 'lead', role: 'ground', flow: 'in', required: true },
    { id: 'tx', label: 'TX', title: 'It sends here', side: 'right', form: 'lead', role: 'signal', flow: 'out' },
    { id: 'rx', label: 'RX', title: 'It listens here', side: 'right', form: 'lead', role: 'signal', flow: 'in' },
  ],
  symbol: () => moduleBox({ left: ['+', '-'], right: ['tx', 'rx'] }, 120, 60),
  behave: (s, { on, wired }) => ({
    elements: [
      { kind: 'current', id: 'load', a: '+', b: '-', amp: s.num('typA'), minV: (2 / 3) * s.num('minV') },
      ...(wired('tx')
        ? [{ kind: 'source' as const, id: 'tx', a: 'tx', b: '-', volt: on('up') ? levelOf(s).idleV : 0, ohm: on('up') ? levelOf(s).ohm : OFF_OHM }]
        : []),
      ...(wired('rx') ? [{ kind: 'resistor' as const, id: 'rx', a: 'rx', b: '-', ohm: OFF_OHM, tol: { ohm: 0.5 } }] : []),
    ],
    devices: [{ id: 'up', wants: (probe) => probe.volts('+') - probe.volts('-') > STARTS_SHARE * s.num('minV'), operateS: 0.1, releaseS: 0.01 }],
  }),
  facts: (s) => ({
    loads: [
      {
        plus: '+',
        minus: '-',
        label: s.str('what') || 'Serial device',
        nominalV: s.num('maxV') < 4.5 ? 3.3 : s.num('maxV') < 9 ? 5 : 12,
        minV: s.num('minV'),
        maxV: s.num('maxV'),
        absMaxV: 1.1 * s.num('maxV'),
        peakA: s.num('typA'),
        heatA: s.num('typA'),
      },
    ],
    polar: [{ plus: '+', minus: '-', what: 'serial device' }],
  }),
  subtitle: (s) => s.str('what') || levelOf(s).title,
  spec: (s) => `${s.str('what') || 'Serial device'}, ${levelOf(s).title}, ${s.num('minV')} to ${s.num('maxV')} V, ${s.num('typA')} A`,
  meterPoints: (s) => [
    { plus: '+', minus: '-', what: `supply, ${s.num('minV')} to ${s.num('maxV')} V` },
    { plus: 'tx', minus: '-', what: `while it is silent: ${levelOf(s).idleV} V` },
  ],
});

function levelOf(s: Settings): (typeof SERIAL_LEVELS)[SerialLevel] {
  return SERIAL_LEVELS[s.str('levels') as SerialLevel];
}
