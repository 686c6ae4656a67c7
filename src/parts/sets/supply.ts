import { CLAMPS } from '../../trade/semiconductors.ts';
import type { SetDef } from '../types.ts';

const C33 = CLAMPS['33v'];

/**
 * Fused supply in at the guard, 5 V out. The clamp stands ahead of the guard and works both ways, so that the negative
 * spike (-150 V in a 12 V vehicle) stays below what the guard stands: clamp 53 V + 15 V charged bulk = 68 V < 100 V.
 * 24 V: stand-off 58 V, above the clamped load dump (58 V type, 5 %, makers' sheets from memory); 94 V + 29 V < 200 V.
 */
export const supply: SetDef = {
  id: 'supply',
  title: 'Guarded 5 V supply',
  about: 'From a fused vehicle feed to steady 5 V: surge clamp, reverse guard, bulk capacitor and step-down converter.',
  words: ['power', 'converter', 'buck', 'reverse', 'surge'],
  parts: [
    {
      key: 'clamp',
      kind: 'surge-clamp',
      x: 20,
      y: 80,
      turn: 1,
      settings: { bidirectional: true, standoffV: C33.standoffV, brMinV: C33.brMinV, brMaxV: C33.brMaxV, clampV: C33.clampV, peakA: C33.peakA },
      settings24: { standoffV: 58, brMinV: 64.4, brMaxV: 71.2, clampV: 93.6, peakA: 6.4 },
    },
    {
      key: 'guard',
      kind: 'reverse-guard',
      x: 70,
      y: 10,
      settings: { reverseV: 100 },
      settings24: { type: 'schottky', dropV: 0.85, reverseV: 200 },
    },
    { key: 'bulk', kind: 'capacitor', x: 210, y: 80, turn: 1, settings24: { ratedV: 100 } },
    { key: 'converter', kind: 'step-down', x: 340, y: 20, settings24: { startV: 9, stopV: 8.2, inMaxV: 75, absMaxV: 80 } },
  ],
  wires: [
    { from: ['clamp', 'K'], to: ['guard', 'in'], lengthM: 0.1 },
    { from: ['guard', 'out'], to: ['converter', 'in'], lengthM: 0.1 },
    { from: ['bulk', '+'], to: ['converter', 'in'], lengthM: 0.05 },
    { from: ['bulk', '-'], to: ['converter', 'gnd'], lengthM: 0.05 },
    { from: ['guard', 'gnd'], to: ['bulk', '-'], lengthM: 0.1 },
    { from: ['clamp', 'A'], to: ['bulk', '-'], lengthM: 0.1 },
  ],
};
