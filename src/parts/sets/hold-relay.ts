import type { SetDef } from '../types.ts';

/** Delay-off relay with a small fuse of its own in the trigger line. */
export const holdRelay: SetDef = {
  id: 'hold-relay',
  title: 'Hold relay',
  about: 'Keeps the build powered for a set time after key-off, so that the computer can stop in order.',
  words: ['delay', 'timer', 'shutdown', 'off delay'],
  parts: [
    { key: 'trigger', kind: 'blade-fuse', x: 0, y: 40, name: 'Trigger fuse', settings: { ratingA: 1 }, settings24: { voltClass: '58' } },
    {
      key: 'relay',
      kind: 'delay-off-relay',
      x: 100,
      y: 0,
      // The kind's own 24 V figures.
      settings24: { nominalV: 24, contactA: 20, coilA: 0.07, triggerOnV: 12, pullInV: 14.8, dropOutV: 8, dropOutMaxV: 9.6 },
    },
  ],
  wires: [{ from: ['trigger', '2'], to: ['relay', '15'] }],
};
