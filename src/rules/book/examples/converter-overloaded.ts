import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** Two devices that make the load 2.4 A: computer 1.2 A and 2 x 0.6 A. */
export const busy = () =>
  bench()
    .part('modem', 'usb-device', 'seat', { typA: 0.6, peakA: 0.6 })
    .part('reader', 'usb-device', 'seat', { typA: 0.6, peakA: 0.6 })
    .wire('computer.usb1', 'modem.usb', { lengthM: 0.3 })
    .wire('computer.usb2', 'reader.usb', { lengthM: 0.3 });

export const example: Example = {
  flagged: () => busy().set('converter', { ratedA: 3, limitMinA: 3.5, limitMaxA: 5 }).zone('seat', { kind: 'dash' }),
  clean: () => busy(),
  inOrder: 'A 6 A converter under the seat, where it stays cooler.',
  also: ['computer', 'modem', 'reader'],
};
