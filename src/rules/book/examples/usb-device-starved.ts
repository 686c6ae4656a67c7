import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** Four metres of ready-made cable to a reader of half an amp. */
const reader = (areaMm2: number): Bench =>
  bench()
    .part('reader', 'usb-device', 'seat')
    .part('cable', 'usb-cable', 'seat', { lengthM: 4, areaMm2 })
    .wire('computer.usb1', 'cable.host', { lengthM: 0.05, areaMm2: 0.5 })
    .wire('cable.device', 'reader.usb', { lengthM: 0.05, areaMm2: 0.5 });

export const example: Example = {
  flagged: () => reader(0.08),
  clean: () => reader(0.5),
  inOrder: 'A supply pair of 0.5 mm² loses 0.17 V over four metres.',
  also: ['computer', 'cable'],
};
