import type { Device, Element } from '../../circuit/types.ts';
import type { Primitive } from '../../drawing/types.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { electronics, guardedAgainst } from '../switchModule.ts';
import { coilGlyph, contactGlyph, moduleBox, strokes } from '../symbols.ts';
import type { Link, Settings, Situation } from '../types.ts';
import { byBand, plain, withUnit } from '../values.ts';

const INPUTS = ['set', 'set2', 'hold'] as const;
/** Series resistor and divider of each input, ohm (common practice, no source). */
const INPUT_OHM = 47_000;
/** The transistor's gate with its capacitor, s: a cranking dip of 15 ms passes (common practice, no source). */
const GATE_S = { close: 0.005, open: 0.05 } as const;
/** The memory is filled in this time by a set input, s (common practice, no source). */
const FILL_S = 0.001;

/** Self-holding switch: closed by key or button, kept closed by the computer, opened by it when it has stopped. */
export const holdLatch = definePart({
  kind: 'hold-latch',
  title: 'Hold latch',
  group: 'Switch',
  about: 'A key line or a button closes it, the computer keeps it closed with a pin and lets it open when it has stopped: parked, nothing draws.',
  words: ['latch', 'self-holding', 'P-channel', 'hold', 'power button', 'shutdown', 'soft switch', 'backstop'],
  letter: 'K',
  settings: [
    amount('releaseS', 'Opens after set and hold have fallen', 's', [0.01, 5, 600], 'RC time; common practice, no source', {
      help: 'Longer than the computer needs to come up when a short press alone closes it: until then no pin holds.',
    }),
    amount('backstopS', 'Opens at the latest after the last set', 's', [0, 300, 36_000], 'five minutes; common practice, no source; 0 = never', {
      help: 'A computer that hangs would hold it for ever and empty the battery.',
    }),
    amount('timeTol', 'Times may be off by', '%', [0, 0.3, 0.5], 'RC timer ±30 %, digital ±10 %; common practice, no source'),
    amount('nominalV', 'Made for', 'V', [5, 12, 24], 'as printed on it'),
    amount('ratedA', 'Rated current', 'A', [0.1, 5, 100], '20 mΩ class transistor; common practice, no source'),
    amount('dropOhm', 'Resistance when closed', 'ohm', [0.0001, 0.02, 1], '20 mΩ class P-channel transistor; common practice, no source'),
    amount('quiescentA', 'Draw when open', 'A', [0, 10e-6, 0.01], 'leakage of transistors and divider; common practice, no source'),
    amount('closedA', 'Draw when closed', 'A', [0, 0.0005, 0.1], 'gate divider and timer at 12 V; common practice, no source', { rare: true }),
    amount('setOnV', 'Set counts as live above', 'V', [0.5, 6, 20], 'half the nominal voltage; common practice, no source', { rare: true }),
    amount('holdOnV', 'Hold counts as high above', 'V', [0.5, 2, 20], 'below every 3.3 V pin’s high level; common practice, no source', { rare: true }),
    amount('leastV', 'Lets go below', 'V', [1, 4.5, 20], 'gate of a logic-level transistor; from memory', { rare: true }),
    amount('absMaxV', 'Highest input for a moment', 'V', [15, 60, 250], '60 V class transistor, gate clamped; common practice, no source', { rare: true }),
    yesNo('reverseGuard', 'Stands a reversed supply', true, 'a diode in the supply of its timer; common practice, no source', {
      help: 'The transistor itself lets a reversed current through: what stands behind it needs a guard of its own.',
      rare: true,
    }),
  ],
  variants: [
    { id: '12v', title: '12 V, five minutes at the latest', settings: {} },
    { id: '12v-slow', title: '12 V, slow: holds over a start by button', settings: { releaseS: 60 } },
    { id: '24v', title: '24 V, five minutes at the latest', settings: { nominalV: 24, setOnV: 12, absMaxV: 100, closedA: 0.001 } },
  ],
  terminals: () => [
    { id: 'in', label: 'in', title: 'Constant supply in', side: 'left', form: 'screw', role: 'supply', flow: 'in', required: true },
    { id: 'set', label: 'set', title: 'Closes while live', side: 'left', form: 'lead', role: 'signal', flow: 'in' },
    { id: 'set2', label: 'set 2', title: 'Closes as well while live: a button to the supply', side: 'left', form: 'lead', role: 'signal', flow: 'in' },
    { id: 'out', label: 'out', title: 'Switched supply out', side: 'right', form: 'screw', role: 'supply', flow: 'out', required: true },
    { id: 'hold', label: 'hold', title: 'Kept closed by the computer’s pin', side: 'right', form: 'lead', role: 'signal', flow: 'in' },
    { id: 'gnd', label: 'gnd', title: 'Ground', side: 'bottom', form: 'screw', role: 'ground', required: true },
  ],
  symbol: () => moduleBox({ left: ['in', 'set', 'set2'], right: ['out', null, 'hold'], bottom: ['gnd'] }, 140, 80, drawing()),
  behave: (s, situation) => ({ elements: elements(s, situation), devices: devices(s, situation) }),
  facts: (s) => ({
    links: [{ a: 'in', b: 'out', type: 'contact', contact: 'no' }, ...INPUTS.map((a): Link => ({ a, b: 'gnd', type: 'resistor', ohm: INPUT_OHM }))],
    loads: [electronics(s, Math.max(s.num('closedA'), s.num('quiescentA')))],
    polar: guardedAgainst(s, 'hold latch'),
  }),
  subtitle: (s) => `opens ${plain(s.num('releaseS'))} s after hold`,
  spec: (s) =>
    `Self-holding switch (P-channel), ${plain(s.num('nominalV'))} V, ${plain(s.num('ratedA'))} A, at most ${withUnit(s.num('dropOhm'), 'ohm')}; opens ${plain(s.num('releaseS'))} s after set and hold have fallen${s.num('backstopS') > 0 ? `, at the latest ${plain(s.num('backstopS'))} s after the last set` : ', no time limit'}; idle at most ${withUnit(s.num('quiescentA'), 'A')}`,
  meterPoints: () => [
    { plus: 'set', minus: 'gnd', what: 'Set line in each key position' },
    { plus: 'hold', minus: 'gnd', what: '3.3 V while the computer is up, 0 V when it has stopped' },
    { plus: 'out', minus: 'gnd', what: 'Switched supply: gone some seconds after the computer has stopped' },
  ],
});

/** Contact moved by what releases slowly: a coil with a filled end (IEC 60617, from memory). */
function drawing(): Primitive[] {
  return [
    ...strokes([
      [32, 20, 58, 20],
      [82, 20, 108, 20],
    ]),
    ...contactGlyph(70, 20),
    { t: 'line', pts: [69, 39, 69, 18], ink: 'soft', w: 1, dash: [3, 2] },
    ...coilGlyph(69, 46),
    { t: 'rect', x: 55, y: 39, w: 8, h: 14, fill: 'ink' },
  ];
}

function elements(s: Settings, { on, wired }: Situation): Element[] {
  const closed = on('latch');
  return [
    { kind: 'resistor', id: 'contact', a: 'in', b: 'out', ohm: closed ? s.num('dropOhm') : Number.POSITIVE_INFINITY, tol: { ohm: [0.7, 1.6] } },
    { kind: 'current', id: 'idle', a: 'in', b: 'gnd', amp: closed ? s.num('closedA') : s.num('quiescentA'), minV: s.num('leastV'), tol: { amp: 0.5 } },
    ...INPUTS.filter(wired).map((a): Element => ({ kind: 'resistor', id: a, a, b: 'gnd', ohm: INPUT_OHM, tol: { ohm: 0.1 } })),
  ];
}

/**
 * `kept` is the RC memory, `backstop` the timer that has run out, `latch` the closed switch. Hold keeps a closed latch
 * closed and cannot close an open one.
 */
function devices(s: Settings, { band, wired }: Situation): Device[] {
  const pace = byBand(band, 1 - s.num('timeTol'), 1 + s.num('timeTol'));
  const [setOnV, holdOnV, leastV, backstopS] = [s.num('setOnV'), s.num('holdOnV'), s.num('leastV'), s.num('backstopS')];
  const above = (probe: Parameters<Device['wants']>[0], node: string, volt: number): boolean => wired(node) && probe.volts(node) - probe.volts('gnd') > volt;
  const isSet = (probe: Parameters<Device['wants']>[0]): boolean => above(probe, 'set', setOnV) || above(probe, 'set2', setOnV);
  return [
    {
      id: 'kept',
      wants: (probe) => isSet(probe) || (probe.on('latch') && above(probe, 'hold', holdOnV)),
      operateS: FILL_S,
      releaseS: s.num('releaseS') * pace,
    },
    {
      id: 'backstop',
      wants: (probe) => backstopS > 0 && probe.on('latch') && !isSet(probe),
      operateS: backstopS * pace,
      releaseS: FILL_S,
    },
    {
      id: 'latch',
      wants: (probe, on) => {
        if (probe.volts('in') - probe.volts('gnd') <= leastV) return false;
        return isSet(probe) || (on && probe.on('kept') && !probe.on('backstop'));
      },
      operateS: GATE_S.close,
      releaseS: GATE_S.open,
    },
  ];
}
