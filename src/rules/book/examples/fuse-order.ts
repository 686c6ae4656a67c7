import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A branch fuse behind one of 5 A. */
function branch(branchA: number): Bench {
  return fused('branch')
    .set('fuse', { ratingA: 5 })
    .part('branchFuse', 'blade-fuse', 'dash', { ratingA: branchA })
    .part('camera', 'camera', 'dash')
    .wire('fuse.2', 'branchFuse.1', { lengthM: 0.5 })
    .wire('branchFuse.2', 'camera.+', { lengthM: 2 })
    .wire('camera.-', 'ground.31', { lengthM: 2 });
}

export const example: Example = {
  flagged: () => branch(5),
  clean: () => branch(2),
  inOrder: '2 A behind 5 A: the small one opens first, and what else hangs on the large one lives on.',
  also: ['feed30', 'fuse', 'camera', 'ground'],
};
