import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera on a lid that opens on a hinge. */
function lid(looped: boolean): Bench {
  return withCamera(fused('lid'), {}, { zone: 'seat', lengthM: 2.5 })
    .moving('dash', 'seat', 'hinge')
    .wireSet('supply', { looped })
    .wireSet('back', { looped })
    .wireSet('picture', { looped });
}

export const example: Example = {
  flagged: () => lid(false),
  clean: () => lid(true),
  inOrder: 'Fine strands and a loop bend with the lid.',
  also: ['feed30', 'ground'],
};
