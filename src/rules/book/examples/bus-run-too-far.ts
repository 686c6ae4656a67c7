import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A sensor on the I2C pins. */
export const sensor = (lengthM: number, clock: '100' | '400' = '100'): Bench =>
  bench()
    .set('computer', { i2c: true, gpio2Mode: 'bus', gpio3Mode: 'bus' })
    .part('sensor', 'bus-device', 'seat', { clock })
    .wire('sensor.+', 'computer.17', { lengthM })
    .wire('sensor.-', 'computer.39', { lengthM })
    .wire('sensor.sda', 'computer.3', { lengthM })
    .wire('sensor.scl', 'computer.5', { lengthM });

export const example: Example = {
  flagged: () => sensor(3, '400'),
  clean: () => sensor(1, '400'),
  inOrder: 'One metre: the edges take 183 ns of 300 ns.',
  also: ['computer'],
};
