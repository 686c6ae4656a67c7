import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera in a 24 V lorry, behind a fuse of a class. */
function lorry(voltClass: string): Bench {
  return withCamera(fused('lorry', { systemV: 24 }).set('fuse', { voltClass }), { maxV: 36, absMaxV: 60 });
}

export const example: Example = {
  flagged: () => lorry('16'),
  clean: () => lorry('58'),
  inOrder: 'A fuse of the 58 V class breaks whatever a 24 V vehicle brings.',
  also: ['feed30', 'camera', 'ground'],
};
