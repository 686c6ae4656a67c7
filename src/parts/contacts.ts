import type { Resistor } from '../circuit/types.ts';
import { amount, choice } from './settings.ts';
import type { Setting, Settings } from './types.ts';

/**
 * Closed resistance of contacts, ohm: usual value and greatest over it. Relay: about 5 mohm, limit of sheets 50 mohm new
 * is seldom met at some amps; rocker and push button limits 50 and 100 mohm (from memory of switch makers' sheets).
 */
export const CONTACT = {
  relay: { ohm: 0.005, most: 0.015 },
  rocker: { ohm: 0.01, most: 0.05 },
  button: { ohm: 0.05, most: 0.1 },
} as const;

/** Operate and release times of a plug-in vehicle relay, s: bare, and slowed by a diode across the coil (common practice, no source). */
export const COIL_S = { operate: 0.007, release: 0.005, releaseWithDiode: 0.015 } as const;

/** How long a relay with that spike killer bears too little at its coil before it lets go, s. */
export function coilReleaseS(s: Settings): number {
  return s.str('suppression') === 'diode' ? COIL_S.releaseWithDiode : COIL_S.release;
}

/** A contact as an element: closed or open. */
export function contactElement(id: string, a: string, b: string, closed: boolean, kind: keyof typeof CONTACT): Resistor {
  const { ohm, most } = CONTACT[kind];
  return { kind: 'resistor', id, a, b, ohm: closed ? ohm : Number.POSITIVE_INFINITY, tol: { ohm: [0.5, most / ohm] } };
}

/** Least current at which a contact material keeps itself clean, A (from memory; common practice, no single source). */
const MATERIAL_MIN_A: Readonly<Record<string, number>> = { gold: 10e-6, 'silver-tactile': 1e-3, silver: 10e-3 };

/** What the contact of a power relay wants at the least: 0.1 A at 5 V, up to 1 A at 14 V (relay makers' sheets, read). */
export const RELAY_MIN_A = 0.1;

/** The two settings of a hand-operated contact that say how small a current it may switch. */
export function contactSettings(first: 'gold' | 'silver'): Setting[] {
  const options: (readonly [string, string])[] = [
    ['gold', 'gold-flashed'],
    ['silver-tactile', 'silver, tactile'],
    ['silver', 'silver, power'],
  ];
  const rest = options.filter(([v]) => v !== first);
  return [
    choice('contact', 'Contact material', [options.find(([v]) => v === first)!, ...rest], 'as stated on the switch; common practice, no source', {
      help: 'Thin currents need gold; silver tarnishes and wants some current to keep clean.',
    }),
    amount(
      'minA',
      'Least current it is rated for',
      'A',
      [0, 0, 1],
      '0 = by the contact material: gold 10 µA, tactile silver 1 mA, silver 10 mA (from memory)',
      {
        rare: true,
      },
    ),
  ];
}

/** Least current that this contact should switch, A: the sheet's own figure, else by material. */
export function contactMinA(s: Settings): number {
  return s.num('minA') > 0 ? s.num('minA') : (MATERIAL_MIN_A[s.str('contact')] ?? 10e-3);
}
