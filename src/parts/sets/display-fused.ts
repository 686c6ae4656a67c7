import type { SetDef } from '../types.ts';

/** A display on a branch of its own. */
export const displayFused: SetDef = {
  id: 'display-fused',
  title: 'Display with its fuse',
  about: 'A touch display on its own fused 5 V branch, so that a fault in its lead does not stop the computer.',
  words: ['screen', 'monitor', 'branch'],
  parts: [
    { key: 'fuse', kind: 'blade-fuse', x: 0, y: 10, name: 'Display fuse', settings: { ratingA: 3 } },
    { key: 'display', kind: 'touch-display', x: 100, y: 0 },
  ],
  wires: [{ from: ['fuse', '2'], to: ['display', '5v'] }],
};
