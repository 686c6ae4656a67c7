import type { Device, Element } from '../../circuit/types.ts';
import type { Primitive } from '../../drawing/types.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { electronics, guardedAgainst } from '../switchModule.ts';
import { coilGlyph, contactGlyph, mark, moduleBox, strokes } from '../symbols.ts';
import type { Settings, Situation, TerminalDef } from '../types.ts';
import { byBand, plain, withUnit } from '../values.ts';

/** The contact itself and its driver, s (common practice, no source). */
const CONTACT_S = { close: 0.05, open: 0.05 } as const;
/** The warning is taken back so far above its level, as a share of the nominal voltage, after so long (common practice, no source). */
const WARN_BACK = { share: 1 / 60, s: 2 } as const;
/** Transistor of the warning output when it pulls, ohm (common practice, no source). */
const WARN_OHM = 50;

/** Cuts the build off before it empties the starting battery. */
export const lowVoltageCutout = definePart({
  kind: 'low-voltage-cutout',
  title: 'Low-voltage cut-out',
  group: 'Switch',
  about: 'Cuts the build off before it empties the starting battery, and warns the computer first so that it can stop in order.',
  words: ['cut-out', 'cutout', 'battery guard', 'disconnect', 'undervoltage', 'flat battery', 'discharge'],
  letter: 'K',
  settings: [
    amount('cutV', 'Cuts off below', 'V', [5, 11.8, 60], '11.8 V to 12.2 V, twice that in 24 V vehicles; common practice, no source'),
    amount('delayS', 'Cuts off after', 's', [0, 90, 3600], 'at least 30 s, and longer than the computer needs to stop; common practice, no source', {
      help: 'Counted from the warning on, where there is one: the time the computer has for its stop.',
    }),
    yesNo('warns', 'Has a warning output', true, 'two-stage cut-out; common practice, no source', {
      help: 'Without one the computer loses its power unawares.',
    }),
    amount('warnV', 'Warns below', 'V', [5, 12.2, 60], 'a little above the cut-off; common practice, no source'),
    amount('warnDelayS', 'Warns after', 's', [0, 60, 3600], 'longer than any cranking; common practice, no source'),
    amount('reconnectV', 'Joins again above', 'V', [5, 12.8, 60], 'above a resting battery: only charging brings it back; common practice, no source'),
    amount('nominalV', 'Made for', 'V', [12, 12, 24], 'as printed on it'),
    amount('ratedA', 'Rated current', 'A', [0.5, 20, 300], 'common practice, no source'),
    amount('dropOhm', 'Resistance when closed', 'ohm', [0.0001, 0.005, 1], 'transistor switch of this size, from memory', { rare: true }),
    amount('quiescentA', 'Takes for itself', 'A', [0, 0.0015, 0.1], 'makers’ sheets 1 mA to 2 mA, from memory'),
    amount('reconnectS', 'Joins again after', 's', [0, 2, 600], 'common practice, no source', { rare: true }),
    amount('levelTol', 'Levels may be off by', '%', [0, 0.01, 0.1], 'common practice, no source', { rare: true }),
    amount('timeTol', 'Times may be off by', '%', [0, 0.1, 0.5], 'digital timer ±10 %; common practice, no source', { rare: true }),
    amount('leastV', 'Works down to', 'V', [1, 5, 30], 'electronics behind a 5 V regulator; common practice, no source', {
      help: 'Below this it opens and has forgotten everything when the supply comes back.',
      rare: true,
    }),
    amount('absMaxV', 'Highest input for a moment', 'V', [15, 60, 250], '60 V class part; common practice, no source', { rare: true }),
    yesNo('reverseGuard', 'Stands a reversed supply', true, 'electronics for vehicles carry a diode in their supply; common practice, no source', {
      rare: true,
    }),
  ],
  variants: [
    { id: '12v', title: '12 V, warns first', settings: {} },
    { id: '12v-plain', title: '12 V, one level', settings: { warns: false, cutV: 12, delayS: 60 } },
    { id: '24v', title: '24 V, warns first', settings: { nominalV: 24, cutV: 23.6, warnV: 24.4, reconnectV: 25.6 } },
  ],
  terminals: (s) => {
    const warn: TerminalDef = { id: 'warn', label: 'warn', title: 'Warning, low when given', side: 'right', form: 'lead', role: 'signal', flow: 'out' };
    return [
      { id: 'in', label: 'in', title: 'Constant supply in', side: 'left', form: 'screw', role: 'supply', flow: 'in', required: true },
      { id: 'gnd', label: 'gnd', title: 'Ground', side: 'left', form: 'screw', role: 'ground', required: true },
      { id: 'out', label: 'out', title: 'Supply out', side: 'right', form: 'screw', role: 'supply', flow: 'out', required: true },
      ...(s.flag('warns') ? [warn] : []),
    ];
  },
  symbol: (s) => moduleBox({ left: ['in', 'gnd'], right: ['out', s.flag('warns') ? 'warn' : null] }, 140, 60, drawing()),
  behave: (s, situation) => ({ elements: elements(s, situation), devices: devices(s, situation) }),
  facts: (s) => ({
    links: [{ a: 'in', b: 'out', type: 'contact', contact: 'no' }],
    loads: [electronics(s, s.num('quiescentA'))],
    polar: guardedAgainst(s, 'cut-out'),
  }),
  subtitle: (s) => `below ${plain(s.num('cutV'))} V for ${plain(s.num('delayS'))} s`,
  spec: (s) =>
    `Low-voltage cut-out, ${plain(s.num('nominalV'))} V: off below ${plain(s.num('cutV'))} V after ${plain(s.num('delayS'))} s, on above ${plain(s.num('reconnectV'))} V${s.flag('warns') ? `, warning below ${plain(s.num('warnV'))} V after ${plain(s.num('warnDelayS'))} s (open collector)` : ''}, ${plain(s.num('ratedA'))} A, idle at most ${withUnit(s.num('quiescentA'), 'A')}`,
  meterPoints: (s) => [
    { plus: 'in', minus: 'gnd', what: 'The voltage it judges by' },
    { plus: 'in', minus: 'out', what: 'Drop across the closed cut-out under load' },
    ...(s.flag('warns') ? [{ plus: 'warn', minus: 'gnd', what: 'Near 0 V while it warns' }] : []),
  ],
});

/** Contact moved by a measuring relay for too little voltage (IEC 60617, from memory). */
function drawing(): Primitive[] {
  return [
    ...strokes([
      [32, 20, 58, 20],
      [82, 20, 108, 20],
    ]),
    ...contactGlyph(70, 20),
    { t: 'line', pts: [69, 37, 69, 18], ink: 'soft', w: 1, dash: [3, 2] },
    ...coilGlyph(69, 44),
    mark(69, 44, 'U<'),
  ];
}

function elements(s: Settings, { on, wired }: Situation): Element[] {
  const list: Element[] = [
    { kind: 'resistor', id: 'contact', a: 'in', b: 'out', ohm: on('contact') ? s.num('dropOhm') : Number.POSITIVE_INFINITY, tol: { ohm: [0.5, 1.6] } },
    { kind: 'current', id: 'idle', a: 'in', b: 'gnd', amp: s.num('quiescentA'), minV: s.num('leastV'), tol: { amp: 0.3 } },
  ];
  if (s.flag('warns') && wired('warn')) {
    list.push({ kind: 'resistor', id: 'warn', a: 'warn', b: 'gnd', ohm: on('warning') ? WARN_OHM : Number.POSITIVE_INFINITY, tol: { ohm: 0.5 } });
  }
  return list;
}

/**
 * `warning` has been given, `cut` remembers that it has cut off until the supply is charged again, `contact` is closed.
 * Cutting off is counted from the warning on. Without supply the memory is lost and the contact falls open.
 */
function devices(s: Settings, { band }: Situation): Device[] {
  const level = byBand(band, 1 + s.num('levelTol'), 1 - s.num('levelTol'));
  const pace = byBand(band, 1 - s.num('timeTol'), 1 + s.num('timeTol'));
  const [cutV, warnV, reconnectV] = [s.num('cutV') * level, s.num('warnV') * level, s.num('reconnectV') * level];
  const backV = warnV + WARN_BACK.share * s.num('nominalV');
  const leastV = s.num('leastV');
  const warns = s.flag('warns');
  return [
    {
      id: 'warning',
      wants: (probe, on) => {
        const v = probe.volts('in') - probe.volts('gnd');
        return warns && v > leastV && v < (on ? backV : warnV);
      },
      operateS: s.num('warnDelayS') * pace,
      releaseS: WARN_BACK.s,
    },
    {
      id: 'cut',
      wants: (probe, on) => {
        const v = probe.volts('in') - probe.volts('gnd');
        if (v <= leastV) return false;
        return on ? v < Math.max(reconnectV, cutV) : v < cutV && (!warns || probe.on('warning'));
      },
      operateS: s.num('delayS') * pace,
      releaseS: s.num('reconnectS'),
    },
    {
      id: 'contact',
      wants: (probe) => probe.volts('in') - probe.volts('gnd') > leastV && !probe.on('cut'),
      operateS: CONTACT_S.close,
      releaseS: CONTACT_S.open,
    },
  ];
}
