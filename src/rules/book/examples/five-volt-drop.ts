import type { Bench } from '../bench.ts';
import { straight } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** Two wires of a length and size between converter and computer, or four. */
function wired(lengthM: number, areaMm2: number, pins: readonly number[], grounds: readonly number[]): Bench {
  const b = straight('30')
    .cut('converter.out>computer.2', 'converter.out>computer.4', 'converter.0v>computer.6', 'converter.0v>computer.9')
    .set('converter', { limitMaxA: 4, limitMinA: 3, ratedA: 3 });
  for (const pin of pins) b.wire('converter.out', `computer.${pin}`, { lengthM, areaMm2 });
  for (const pin of grounds) b.wire('converter.0v', `computer.${pin}`, { lengthM, areaMm2 });
  return b;
}

export const example: Example = {
  flagged: () => wired(2, 0.5, [2], [6]),
  clean: () => wired(0.25, 1.5, [2, 4], [6, 9, 14]),
  inOrder: 'Five short wires of 1.5 mm² lose next to nothing.',
  also: ['guard', 'converter'],
};
