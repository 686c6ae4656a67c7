import type { SetDef } from '../types.ts';

/** The pin's side is the resistor's left end, where the capacitor sits. */
export const buttonFilter: SetDef = {
  id: 'button-filter',
  title: 'Button with filter',
  about: 'A push button to ground with 1 kΩ and 100 nF at the pin: keeps static and relay spikes of a long wire away from it.',
  words: ['debounce', 'input', 'switch'],
  parts: [
    { key: 'filter', kind: 'capacitor', x: 10, y: 40, turn: 1, settings: { farad: 100e-9, ratedV: 50, esrOhm: 0.02, tol: 0.1, polarised: false } },
    { key: 'series', kind: 'resistor', x: 60, y: 0, settings: { ohm: 1000 } },
    { key: 'button', kind: 'push-button', x: 160, y: 0, settings: { contact: 'gold' } },
  ],
  wires: [
    { from: ['filter', '+'], to: ['series', '1'], lengthM: 0.05 },
    { from: ['series', '2'], to: ['button', '1'] },
    { from: ['button', '2'], to: ['filter', '-'] },
  ],
};
