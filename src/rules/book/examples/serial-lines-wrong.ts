import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A position receiver on the serial pins. */
const receiver = (levels: string): Bench =>
  bench()
    .set('computer', { console: false, gpio14Mode: 'serial', gpio15Mode: 'serial' })
    .part('receiver', 'serial-device', 'seat', { levels })
    .wire('receiver.+', 'computer.17')
    .wire('receiver.-', 'computer.39')
    .wire('receiver.tx', 'computer.10')
    .wire('receiver.rx', 'computer.8');

export const example: Example = {
  flagged: () => receiver('rs232'),
  clean: () => receiver('3v3'),
  inOrder: 'Levels of 3.3 V, TX to RX and RX to TX, one ground.',
  also: ['computer'],
};
