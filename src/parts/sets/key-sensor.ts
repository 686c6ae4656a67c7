import type { SetDef } from '../types.ts';

/** Series resistor, optocoupler with a reverse diode across its LED, and a pull-up on the computer's side. */
export const keySensor: SetDef = {
  id: 'key-sensor',
  title: 'Key sensor',
  about: 'Tells a pin whether a vehicle wire is live without joining the two: the pin is low while it is live.',
  words: ['ignition sense', 'optocoupler', 'isolated input', 'shutdown'],
  parts: [
    { key: 'series', kind: 'resistor', x: 0, y: 80, name: 'Sense resistor', settings24: { ratedW: 0.5 } },
    { key: 'reverse', kind: 'diode', x: 90, y: 110, turn: 3, name: 'Reverse diode', settings: { type: '1n4148' } },
    { key: 'opto', kind: 'optocoupler', x: 210, y: 70, name: 'Key sensor', settings: { type: '817a' } },
    { key: 'pull', kind: 'resistor', x: 320, y: 0, turn: 1, name: 'Pull-up', settings: { ohm: 10_000 } },
  ],
  wires: [
    { from: ['series', '2'], to: ['opto', 'A'], lengthM: 0.05 },
    { from: ['reverse', 'K'], to: ['opto', 'A'], lengthM: 0.05 },
    { from: ['opto', 'K'], to: ['reverse', 'A'], lengthM: 0.05 },
    { from: ['pull', '2'], to: ['opto', 'C'], lengthM: 0.05 },
  ],
};
