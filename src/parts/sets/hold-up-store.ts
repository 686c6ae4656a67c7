import type { SetDef } from '../types.ts';

/** The fuse sits within a hand's width of the store's plus side: shorted, a full store gives hundreds of amps. */
export const holdUpStore: SetDef = {
  id: 'hold-up-store',
  title: 'Hold-up from supercapacitors',
  about: 'Carries the computer while it stops, even with the battery gone: charge limiter, a fuse at the store, and six cells in a row.',
  words: ['supercapacitor', 'backup', 'hold-up', 'store', 'UPS'],
  parts: [
    { key: 'limiter', kind: 'charge-limiter', x: 0, y: 0 },
    { key: 'fuse', kind: 'blade-fuse', x: 180, y: 40, turn: 2, name: 'Store fuse', settings24: { voltClass: '58' } },
    { key: 'store', kind: 'store', x: 300, y: 30 },
  ],
  wires: [
    { from: ['store', '+'], to: ['fuse', '1'], lengthM: 0.1 },
    { from: ['fuse', '2'], to: ['limiter', 'store'], lengthM: 0.1 },
    { from: ['store', '-'], to: ['limiter', 'gnd'], lengthM: 0.2 },
  ],
};
