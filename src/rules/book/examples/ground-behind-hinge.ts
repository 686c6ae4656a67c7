import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera of 2 A in a cab. */
function cab(place: string): Bench {
  return fused('cab')
    .set('ground', { place })
    .part('camera', 'camera', 'dash', { typA: 2, nightA: 2 })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });
}

export const example: Example = {
  flagged: () => cab('hinge'),
  clean: () => cab('strapped-cab'),
  inOrder: 'A strap of its own joins the cab to the frame.',
  also: ['feed30', 'fuse', 'camera'],
};
