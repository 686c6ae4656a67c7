import type { SetDef } from '../types.ts';

/** The button takes its volts from the latch's own supply, behind its fuse. */
export const latchWithButton: SetDef = {
  id: 'latch-with-button',
  title: 'Hold latch with button',
  about: 'A key line or the button switches the build on, a pin of the computer keeps it on, and parked it draws next to nothing.',
  words: ['power button', 'latch', 'shutdown', 'hold'],
  parts: [
    { key: 'button', kind: 'push-button', x: 0, y: 80, name: 'On button', settings: { contact: 'gold' } },
    {
      key: 'latch',
      kind: 'hold-latch',
      x: 100,
      y: 0,
      // A press alone must last until the computer is up; the kind's own 24 V figures.
      settings: { releaseS: 60 },
      settings24: { nominalV: 24, setOnV: 12, absMaxV: 100, closedA: 0.001 },
    },
  ],
  wires: [
    { from: ['latch', 'in'], to: ['button', '1'] },
    { from: ['button', '2'], to: ['latch', 'set2'] },
  ],
};
