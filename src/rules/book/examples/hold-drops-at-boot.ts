import type { Bench } from '../bench.ts';
import { withLatch } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** A latch that a button sets and the computer then holds. */
function byButton(releaseS: number): Bench {
  return withLatch()
    .cut('set')
    .set('latch', { releaseS })
    .part('button', 'push-button', 'dash', { contact: 'gold' })
    .wire('fuse.2', 'button.1', { lengthM: 0.1 })
    .wire('button.2', 'latch.set2', { lengthM: 2.3 });
}

export const example: Example = {
  flagged: () => byButton(5),
  clean: () => byButton(60),
  inOrder: 'The latch waits 60 s for the pin, and the computer starts in 30 s.',
  also: ['fuse', 'button', 'guard', 'converter', 'computer'],
};
