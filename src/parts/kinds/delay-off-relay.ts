import type { Device, Probe } from '../../circuit/types.ts';
import { TIMER_BELIEVES_S } from '../../trade/keyEvents.ts';
import { COIL_S, coilReleaseS, contactElement } from '../contacts.ts';
import { definePart } from '../definePart.ts';
import { amount, choice, yesNo } from '../settings.ts';
import { guardedAgainst } from '../switchModule.ts';
import { moduleBox } from '../symbols.ts';
import type { Settings, Situation } from '../types.ts';
import { byBand, copperFactor, plain, withUnit } from '../values.ts';

/** Electronic detection of the trigger, s (common practice, no source). */
const TRIGGER_S = 0.05;

/** Holds the supply for a set time after its trigger has gone: so that the computer can stop after key-off. */
export const delayOffRelay = definePart({
  kind: 'delay-off-relay',
  title: 'Hold relay',
  group: 'Switch',
  about: 'Closes 30 to 87 as long as 15 is live and for a set time after: the computer keeps its supply while it stops.',
  words: ['delay', 'timer', 'off delay', 'relay', 'hold', 'shutdown', '15', '30', '87', '31'],
  letter: 'K',
  settings: [
    amount('holdS', 'Holds after the trigger has gone', 's', [1, 90, 3600], 'over 1.25 times a usual stop; common practice, no source', {
      help: 'Longer than the computer needs to stop, at its least.',
    }),
    amount('holdTol', 'Time may be off by', '%', [0, 0.1, 0.5], 'digital timer ±10 %, RC timer ±30 %; common practice, no source'),
    amount(
      'minOffS',
      'Always runs out, then stays open at least',
      's',
      [0, 0, 600],
      '0 = plain timer: a trigger that comes back starts it anew; common practice, no source',
      {
        help: 'A computer that has stopped starts again only when its power has been away for some seconds.',
        rare: true,
      },
    ),
    amount('nominalV', 'Made for', 'V', [5, 12, 24], 'as printed on it'),
    amount('contactA', 'Contact rating', 'A', [0.1, 30, 300], 'plug-in relay, DC at 14 V; common practice, no source'),
    amount('coilA', 'Coil and timer draw, energised', 'A', [0.001, 0.14, 2], 'makers’ sheets 0.13 A to 0.15 A at 12 V, from memory'),
    amount('idleA', 'Draw when it has let go', 'A', [0, 0.0001, 0.1], 'electronic timer; common practice, no source'),
    amount('triggerA', 'Trigger draw', 'A', [0.0001, 0.004, 0.5], '3 kΩ input at 12 V; common practice, no source'),
    choice(
      'suppression',
      'Spike killer across the coil',
      [
        ['diode', 'diode'],
        ['resistor', 'resistor'],
        ['none', 'none'],
      ],
      'electronic timers carry one; common practice, no source',
    ),
    yesNo('reverseGuard', 'Stands a reversed supply', true, 'electronic timers for vehicles carry a diode in their supply; common practice, no source', {
      rare: true,
    }),
    amount('triggerOnV', 'Trigger counts as live above', 'V', [0.5, 6, 20], 'half the nominal voltage; common practice, no source', { rare: true }),
    amount('pullInV', 'Needs to pull in, 20 °C', 'V', [1, 7.2, 20], 'a relay maker’s sheet, read: 7.2 V (12 V coil), 14.8 V (24 V coil)', { rare: true }),
    amount('dropOutV', 'Lets go below, at the earliest, 20 °C', 'V', [0.2, 4, 18], 'a third of the nominal voltage; common practice, no source', {
      rare: true,
    }),
    amount('dropOutMaxV', 'Lets go below, at the latest, 20 °C', 'V', [0.3, 4.8, 19], '0.4 of the nominal voltage; common practice, no source', { rare: true }),
    amount('riseK', 'Coil runs warmer by', 'K', [0, 52, 120], 'a relay maker’s sheet, read', { rare: true }),
  ],
  variants: [
    { id: '12v-90s', title: '12 V, 90 s', settings: {} },
    { id: '12v-rc', title: '12 V, 60 s, RC timer ±30 %', settings: { holdS: 60, holdTol: 0.3 } },
    {
      id: '24v-90s',
      title: '24 V, 90 s',
      settings: { nominalV: 24, contactA: 20, coilA: 0.07, triggerOnV: 12, pullInV: 14.8, dropOutV: 8, dropOutMaxV: 9.6 },
    },
  ],
  terminals: () => [
    { id: '30', label: '30', title: 'Constant supply, contact in', side: 'left', form: 'blade', role: 'supply', flow: 'in', required: true },
    { id: '15', label: '15', title: 'Trigger', side: 'left', form: 'blade', role: 'signal', flow: 'in', required: true },
    { id: '87', label: '87', title: 'Held supply out', side: 'right', form: 'blade', role: 'supply', flow: 'out', required: true },
    { id: '31', label: '31', title: 'Ground', side: 'bottom', form: 'blade', role: 'ground', required: true },
  ],
  symbol: () => moduleBox({ left: ['30', '15'], right: ['87', null], bottom: ['31'] }, 140, 80),
  behave: (s, situation) => {
    const coil = situation.on('coil');
    const { triggerV, pullInV, dropOutV, releaseS } = thresholds(s, situation);
    const triggered = (probe: Probe): boolean => probe.volts('15') - probe.volts('31') > triggerV;
    const minOffS = s.num('minOffS');
    // Once the trigger has gone for good the time runs out whatever comes back, and the pause after it counts as well.
    const spent: Device = {
      id: 'spent',
      wants: (probe, on) => probe.on('hold') && (on || !triggered(probe)),
      operateS: TIMER_BELIEVES_S,
      releaseS: minOffS,
    };
    return {
      elements: [
        contactElement('contact', '30', '87', coil && situation.on('hold'), 'relay'),
        { kind: 'current', id: 'coil', a: '30', b: '31', amp: coil ? s.num('coilA') : s.num('idleA'), minV: s.num('nominalV') / 4, tol: { amp: 0.1 } },
        { kind: 'resistor', id: 'trigger', a: '15', b: '31', ohm: s.num('nominalV') / s.num('triggerA'), tol: { ohm: 0.1 } },
      ],
      devices: [
        // The timer: set while the trigger is live, runs out `releaseS` after it.
        { id: 'hold', wants: (probe) => triggered(probe) && !(minOffS > 0 && probe.on('spent')), operateS: TRIGGER_S, releaseS },
        ...(minOffS > 0 ? [spent] : []),
        // The coil lets go when a dip outlasts its release time, and does not come back until the trigger does.
        {
          id: 'coil',
          wants: (probe, on) => {
            const supply = probe.volts('30') - probe.volts('31');
            if (on) return probe.on('hold') && supply > dropOutV;
            return probe.on('hold') && triggered(probe) && supply > pullInV;
          },
          operateS: COIL_S.operate,
          releaseS: coilReleaseS(s),
        },
      ],
    };
  },
  facts: (s) => ({
    links: [
      { a: '30', b: '87', type: 'contact', contact: 'no' },
      { a: '30', b: '31', type: 'coil', ohm: s.num('nominalV') / s.num('coilA') },
      { a: '15', b: '31', type: 'resistor', ohm: s.num('nominalV') / s.num('triggerA') },
    ],
    loads: [
      {
        plus: '30',
        minus: '31',
        label: 'coil and timer',
        nominalV: s.num('nominalV'),
        minV: s.num('dropOutMaxV'),
        maxV: s.num('nominalV') * (4 / 3),
        absMaxV: null,
        peakA: s.num('coilA') * 1.1,
        heatA: s.num('coilA'),
      },
      {
        plus: '15',
        minus: '31',
        label: 'trigger',
        nominalV: s.num('nominalV'),
        minV: s.num('triggerOnV'),
        maxV: s.num('nominalV') * (4 / 3),
        absMaxV: null,
        peakA: s.num('triggerA') * 1.1,
        heatA: s.num('triggerA'),
      },
    ],
    polar: guardedAgainst(s, 'timer', '30', '31'),
  }),
  subtitle: (s) => `${plain(s.num('holdS'))} s after key-off`,
  spec: (s) =>
    `Delay-off relay, ${plain(s.num('nominalV'))} V, ${plain(s.num('holdS'))} s ±${plain(100 * s.num('holdTol'))} %, own supply at 30${s.num('minOffS') > 0 ? `, always runs out and stays open ${plain(s.num('minOffS'))} s` : ''}, contact ${plain(s.num('contactA'))} A DC, idle at most ${withUnit(s.num('idleA'), 'A')}`,
  meterPoints: () => [
    { plus: '30', minus: '31', what: 'Constant supply at the relay' },
    { plus: '15', minus: '31', what: 'Trigger in each key position' },
    { plus: '87', minus: '31', what: 'Held supply: falls only when the time has run out' },
  ],
});

/** Thresholds of the band: pull-in of a coil as cold as its surroundings, drop-out of one warmed by its own current. */
function thresholds(s: Settings, { band, ambientC }: Situation) {
  const latest = s.num('pullInV');
  const pullInV = byBand(band, latest, latest * 0.7) * copperFactor(ambientC);
  const warm = byBand(band, s.num('dropOutMaxV') * copperFactor(ambientC + s.num('riseK')), s.num('dropOutV') * copperFactor(ambientC));
  const tol = s.num('holdTol');
  return {
    triggerV: s.num('triggerOnV'),
    pullInV,
    dropOutV: Math.min(warm, 0.95 * pullInV),
    releaseS: s.num('holdS') * byBand(band, 1 - tol, 1 + tol),
  };
}
