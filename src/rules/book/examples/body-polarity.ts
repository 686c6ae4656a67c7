import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A van of 1960: the body is battery positive. */
function old(): Bench {
  return fused('van of 1960', { polarity: 'positive-ground' });
}

export const example: Example = {
  flagged: () => withCamera(old()),
  clean: () => withCamera(old()).without('ground').wire('camera.-', 'battery.-', { lengthM: 3 }),
  inOrder: 'The return goes to the battery’s own post, and nothing of ours touches the body.',
  also: ['battery', 'feed30', 'fuse', 'camera', 'ground'],
};
