import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

const camera = (link: string): Bench => withCamera(fused('plugs'), { link });

export const example: Example = {
  flagged: () => camera('ribbon'),
  clean: () => camera('composite'),
  inOrder: 'A composite picture, which the screen takes.',
};
