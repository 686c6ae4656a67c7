import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

function harvester(camera: Readonly<Record<string, number>>): Bench {
  return withCamera(fused('harvester', { systemV: 24 }), camera);
}

export const example: Example = {
  flagged: () => harvester({ absMaxV: 18 }),
  clean: () => harvester({ maxV: 36, absMaxV: 60 }),
  inOrder: 'A camera for 9 to 36 V that stands 60 V is made for 24 V vehicles.',
  also: ['feed30', 'fuse', 'ground'],
};
