import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera of 2.1 A behind a rocker. */
function rocker(settings: Readonly<Record<string, number | boolean>>): Bench {
  return withCamera(fused('rocker'), { typA: 2.1, nightA: 2.1 }).into('supply', 'switch', 'master-switch', ['1', '2'], settings);
}

export const example: Example = {
  flagged: () => rocker({ acOnly: true, dcA: 6 }),
  clean: () => rocker({}),
  inOrder: '10 A at 14 V of direct current are printed on this one.',
  also: ['fuse', 'camera', 'ground'],
};
