import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A computer with hungry USB devices, fed over some of its pins. */
function loaded(pins5: readonly number[], pins0: readonly number[]): Bench {
  const b = bench().without('computer').part('board', 'computer', 'seat', { board: 'newest' });
  for (const pin of pins5) b.wire('converter.out', `board.${pin}`, { lengthM: 0.25, areaMm2: 1.5 });
  for (const pin of pins0) b.wire('converter.0v', `board.${pin}`, { lengthM: 0.25, areaMm2: 1.5 });
  for (const k of [1, 2]) b.part(`usb${k}`, 'usb-device', 'seat', { typA: 0.3, peakA: 0.3 }).wire(`board.usb${k}`, `usb${k}.usb`, { lengthM: 0.3 });
  return b;
}

export const example: Example = {
  flagged: () => loaded([2], [6]),
  clean: () => loaded([2, 4], [6, 9, 14]),
  inOrder: 'Two 5 V pins and three grounds share the current.',
  also: ['converter', 'usb1', 'usb2'],
};
