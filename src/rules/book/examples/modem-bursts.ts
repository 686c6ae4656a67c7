import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A modem that sends in bursts of 2 A, with a capacitor of that size at its plug. */
const modem = (bufferF: number): Bench =>
  bench()
    .part('modem', 'usb-device', 'seat', { what: 'Modem', typA: 0.37, peakA: 0.37, burstA: 2, bufferF, bufferOhm: 0.015 })
    .wire('computer.usb1', 'modem.usb', { lengthM: 0.3, areaMm2: 0.5 });

export const example: Example = {
  flagged: () => modem(0),
  clean: () => modem(4700e-6),
  inOrder: '4700 µF at its plug give what the port does not.',
};
