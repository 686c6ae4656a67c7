import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

const reader = (lengthM: number): Bench => bench().part('reader', 'usb-device', 'desk').wire('computer.usb1', 'reader.usb', { lengthM, areaMm2: 0.5 });

export const example: Example = {
  flagged: () => reader(6.5),
  clean: () => reader(4),
  inOrder: 'Four metres of plain cable; five are the most.',
};
