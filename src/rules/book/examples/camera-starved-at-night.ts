import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera with night lamps behind 15 m of lead. */
const rear = (areaMm2: number): Bench => withCamera(fused('rear camera'), { nightA: 0.5, minV: 8 }, { zone: 'desk', lengthM: 15, areaMm2 });

export const example: Example = {
  flagged: () => rear(0.22),
  clean: () => rear(0.75),
  inOrder: 'Leads of 0.75 mm² lose 0.5 V, and it works from 8 V.',
  also: ['fuse'],
};
