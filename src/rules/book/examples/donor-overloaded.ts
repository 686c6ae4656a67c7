import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** 6.5 A of the vehicle’s own and 2.1 A of ours on one circuit. */
function tapped(donorFuseA: number): Bench {
  return withCamera(fused('tapped').set('feed30', { donorFuseA, donorLoadA: 6.5, leadMm2: 2.5 }), { typA: 2.1, nightA: 2.1 });
}

export const example: Example = {
  flagged: () => tapped(10),
  clean: () => tapped(15),
  inOrder: 'On a 15 A circuit both together leave enough in hand.',
  also: ['fuse', 'camera', 'ground'],
};
