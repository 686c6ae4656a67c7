import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

function camera(colour: 'BK' | 'RD'): Bench {
  return withCamera(fused('camera')).wireSet('supply', { colour });
}

export const example: Example = {
  flagged: () => camera('BK'),
  clean: () => camera('RD'),
  inOrder: 'Red tells everybody: this may be live.',
  also: ['feed30', 'ground'],
};
