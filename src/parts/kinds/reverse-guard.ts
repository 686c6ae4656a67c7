import type { Device, Element } from '../../circuit/types.ts';
import { definePart } from '../definePart.ts';
import { vFAt } from '../diodes.ts';
import { amount, choice, yesNo } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import type { Settings, Situation } from '../types.ts';
import { plain } from '../values.ts';

/** Gate clamp of a P-channel guard: 12 V zener fed through 10 kohm (common practice, no source). */
const GATE = { zenerV: 12, ohm: 10_000 } as const;
/**
 * The channel conducts, both ways, once its source (the side of the converter) is so far above ground, V, and lets go
 * when it has sunk below the lower figure: gate thresholds of standard transistors, 2 V to 4 V (data sheets, from memory).
 */
const CHANNEL = { onV: 4, offV: 2 } as const;
/** Gate resistor times some 3 nF of gate, s (calculated). */
const CHANNEL_S = 3e-5;
/** The diode that every such transistor has inside, towards the converter: 0.8 V at its rated current (data sheets, from memory). */
const BODY = { vF: 0.8, n: 1.5, ohm: 0.01 } as const;

/** Keeps a reversed battery away from everything behind it. */
export const reverseGuard = definePart({
  kind: 'reverse-guard',
  title: 'Reverse guard',
  group: 'Protect',
  about: 'Lets current in only the right way round: a battery connected backwards or a negative spike ends here.',
  words: ['reverse', 'polarity', 'ideal diode', 'P-channel', 'schottky', 'mosfet'],
  letter: 'V',
  settings: [
    choice(
      'type',
      'How it works',
      [
        ['p-channel', 'P-channel transistor'],
        ['schottky', 'series diode'],
      ],
      'common practice, no source',
    ),
    amount('dropV', 'Drop at its rated current', 'V', [0.01, 0.1, 2], '20 mΩ class transistor at 5 A, calculated'),
    amount('ratedA', 'Rated current', 'A', [0.1, 5, 100], 'common practice, no source'),
    amount('reverseV', 'Reverse voltage it stands', 'V', [10, 60, 600], '60 V class part; as stated on its sheet', {
      help: 'The negative spike of a 12 V vehicle reaches −150 V: below that rating a clamp must stand ahead of it.',
    }),
    yesNo('clamped', 'Gate clamp fitted', true, '20 V is the usual gate limit (transistor sheets, from memory)', {
      help: 'Without it a supply above 20 V destroys a P-channel guard.',
    }),
  ],
  variants: [
    { id: 'p-channel', title: 'P-channel, 5 A', settings: {} },
    { id: 'series-diode-200', title: 'Series diode 200 V, 5 A', settings: { type: 'schottky', dropV: 0.85, ratedA: 5, reverseV: 200 } },
    { id: 'series-diode-60', title: 'Series diode 60 V, 5 A', settings: { type: 'schottky', dropV: 0.55, ratedA: 5, reverseV: 60 } },
  ],
  terminals: () => [
    { id: 'in', label: 'in', title: 'From the fuse', side: 'left', form: 'screw', role: 'supply', flow: 'in', required: true },
    { id: 'out', label: 'out', title: 'To the converter', side: 'right', form: 'screw', role: 'supply', flow: 'out', required: true },
    { id: 'gnd', label: 'gnd', title: 'Ground', side: 'bottom', form: 'screw', role: 'ground' },
  ],
  symbol: () => moduleBox({ left: ['in'], right: ['out'], bottom: ['gnd'] }, 120, 60),
  behave: (s, situation) =>
    isDiode(s) ? { elements: [diodeElement(s, situation.ambientC)] } : { elements: transistorElements(s, situation), devices: [channel(situation)] },
  facts: (s) => ({
    links: [isDiode(s) ? { a: 'in', b: 'out', type: 'diode' } : { a: 'in', b: 'out', type: 'conductor', ohm: s.num('dropV') / s.num('ratedA') }],
    polar: [{ plus: 'in', minus: 'gnd', what: 'reverse guard', reverseV: s.num('reverseV') }],
  }),
  subtitle: (s) => `${plain(s.num('dropV'))} V at ${plain(s.num('ratedA'))} A`,
  spec: (s) =>
    `Reverse guard, ${isDiode(s) ? 'series diode' : `P-channel transistor${s.flag('clamped') ? ' with gate clamp' : ''}`}, ${plain(s.num('ratedA'))} A, stands −${plain(s.num('reverseV'))} V`,
  meterPoints: () => [{ plus: 'in', minus: 'out', what: 'Drop across the guard under load' }],
});

function isDiode(s: Settings): boolean {
  return s.str('type') === 'schottky';
}

function diodeElement(s: Settings, tC: number): Element {
  // Up to 0.7 V at rated current it is a Schottky diode, above a junction (catalogue habit, from memory).
  const n = s.num('dropV') < 0.7 ? 1.05 : 1.8;
  return { kind: 'diode', id: 'guard', a: 'in', b: 'out', vF: vFAt(s.num('dropV'), n, tC), iF: s.num('ratedA'), n, tC, ohm: 1e-3, tol: { vF: 0.15 } };
}

/** Channel and body diode side by side, and what the gate clamp draws. */
function transistorElements(s: Settings, { ambientC, on, wired }: Situation): Element[] {
  const ratedA = s.num('ratedA');
  const ohm = on('channel') ? Math.max(1e-4, s.num('dropV') / ratedA) : Number.POSITIVE_INFINITY;
  return [
    { kind: 'resistor', id: 'guard', a: 'in', b: 'out', ohm, tol: { ohm: [0.7, 1.6] } },
    { kind: 'diode', id: 'body', a: 'in', b: 'out', vF: vFAt(BODY.vF, BODY.n, ambientC), iF: ratedA, n: BODY.n, tC: ambientC, ohm: BODY.ohm },
    ...(wired('gnd') ? gateElements(s) : []),
  ];
}

/**
 * A reversed battery leaves source and gate both at or below ground, and the channel shut. A charged bulk behind it holds
 * the channel open for a while in a short negative spike: it is emptied back into the line until the source has sunk.
 */
function channel({ wired }: Situation): Device {
  const gate = wired('gnd') ? 'gnd' : '@0';
  return {
    id: 'channel',
    wants: (probe, on) => probe.volts('out') - probe.volts(gate) > (on ? CHANNEL.offV : CHANNEL.onV),
    operateS: CHANNEL_S,
    releaseS: CHANNEL_S,
  };
}

/** What the gate clamp draws once the supply is above the zener; nothing without one. */
function gateElements(s: Settings): Element[] {
  if (!s.flag('clamped')) return [];
  return [
    { kind: 'zener', id: 'gate', a: 'in', b: '~gate', vBr: GATE.zenerV, ohm: 20, tol: { vBr: 0.05 } },
    { kind: 'resistor', id: 'gatePull', a: '~gate', b: 'gnd', ohm: GATE.ohm, tol: { ohm: 0.05 } },
  ];
}
