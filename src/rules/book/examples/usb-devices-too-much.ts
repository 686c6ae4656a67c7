import type { Bench } from '../bench.ts';
import { bench, withHub } from '../plans.ts';
import type { Example } from '../types.ts';

/** The same devices, the hungriest of them behind a hub with its own fused 5 V. */
function spread(): Bench {
  return withHub(bench())
    .part('modem', 'usb-device', 'seat', { typA: 0.1, peakA: 1 })
    .part('touch', 'usb-device', 'seat', { typA: 0.1, peakA: 0.45 })
    .part('sound', 'usb-device', 'seat', { typA: 0.1, peakA: 0.1 })
    .wire('hub.d1', 'modem.usb', { lengthM: 1 })
    .wire('computer.usb2', 'touch.usb', { lengthM: 1 })
    .wire('computer.usb3', 'sound.usb', { lengthM: 1 });
}

/** Devices of so many amps on the computer's ports. */
function ports(...amps: number[]): Bench {
  const b = bench();
  for (const [i, peakA] of amps.entries())
    b.part(`device${i}`, 'usb-device', 'seat', { typA: 0.1, peakA }).wire(`computer.usb${i + 1}`, `device${i}.usb`, { lengthM: 1 });
  return b;
}

export const example: Example = {
  flagged: () => ports(0.45, 1, 0.1),
  clean: spread,
  inOrder:
    'The modem lives on the fused 5 V of its hub, which lets nothing back; the two on the computer take 0.55 A together, less than half of what its ports give.',
};
