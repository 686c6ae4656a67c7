import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** Devices of so many amps on the computer's ports. */
function ports(...amps: number[]): Bench {
  const b = bench();
  for (const [i, peakA] of amps.entries())
    b.part(`device${i}`, 'usb-device', 'seat', { typA: 0.1, peakA }).wire(`computer.usb${i + 1}`, `device${i}.usb`, { lengthM: 1 });
  return b;
}

export const example: Example = {
  flagged: () => ports(0.45, 1, 0.1),
  clean: () => ports(0.45, 0.1),
  inOrder: 'These two take 0.55 A together, less than half of what the ports give.',
};
