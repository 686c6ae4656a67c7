import type { SetDef } from '../types.ts';

/** Sound from the computer to the radio without a ground loop. */
export const soundIsolated: SetDef = {
  id: 'sound-isolated',
  title: 'Sound with isolator',
  about: 'USB sound adapter, isolator and lead: the computer’s sound reaches the radio without joining their grounds.',
  words: ['audio', 'aux', 'ground loop', 'whine'],
  parts: [
    { key: 'sound', kind: 'usb-sound', x: 0, y: 10 },
    { key: 'isolator', kind: 'audio-isolator', x: 160, y: 0 },
    { key: 'lead', kind: 'audio-lead', x: 320, y: 30 },
  ],
  wires: [
    { from: ['sound', 'line'], to: ['isolator', 'a'], lengthM: 0.2 },
    { from: ['isolator', 'b'], to: ['lead', 'a'], lengthM: 0.1 },
  ],
};
