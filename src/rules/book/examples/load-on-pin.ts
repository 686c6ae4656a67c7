import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().part('k', 'relay', 'seat').wire('computer.11', 'k.86', { lengthM: 0.3 }).wire('k.85', 'converter.gnd', { lengthM: 0.3 }),
  clean: () =>
    bench()
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .part('driver', 'low-side-driver', 'seat')
      .wire('relay.87', 'k.86', { lengthM: 0.3 })
      .wire('k.85', 'driver.out', { lengthM: 0.1 })
      .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
      .wire('computer.11', 'driver.in', { lengthM: 0.2 }),
  inOrder: 'A low-side driver carries the coil, and a diode takes its spike.',
  also: ['k', 'driver', 'converter'],
};
