import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () =>
    bench()
      .cut('four', 'zero9', 'zero14')
      .wireSet('five', { lengthM: 2, areaMm2: 0.5 })
      .wireSet('zero6', { lengthM: 2, areaMm2: 0.5 })
      .set('converter', { limitMaxA: 4, limitMinA: 3, ratedA: 3 }),
  clean: () => bench(),
  inOrder: 'Five short wires of 1.5 mm² lose next to nothing.',
  also: ['converter'],
};
