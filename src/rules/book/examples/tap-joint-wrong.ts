import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A thin radio lead of 0.35 mm², joined somehow. */
function tapped(joint: string): Bench {
  return withCamera(fused('tapped').set('feed30', { joint, leadMm2: 0.35 }).wireSet('tap', { areaMm2: 0.75 }), { typA: 1, nightA: 1 });
}

export const example: Example = {
  flagged: () => tapped('piercing'),
  clean: () => tapped('adapter'),
  inOrder: 'A plug-in adapter cuts nothing and holds every strand.',
  also: ['fuse', 'camera', 'ground'],
};
