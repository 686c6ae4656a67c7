import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () =>
    bench().part('button', 'push-button', 'desk').wire('computer.29', 'button.1', { lengthM: 2.5 }).wire('button.2', 'computer.39', { lengthM: 2.5 }),
  clean: () =>
    bench()
      .part('button', 'push-button', 'desk')
      .part('series', 'resistor', 'seat', { ohm: 1000 })
      .part('filter', 'capacitor', 'seat', { farad: 100e-9, polarised: false })
      .wire('computer.29', 'series.1', { lengthM: 0.05 })
      .wire('series.2', 'button.1', { lengthM: 2.5 })
      .wire('filter.+', 'series.1', { lengthM: 0.05 })
      .wire('filter.-', 'computer.34', { lengthM: 0.05 })
      .wire('button.2', 'computer.39', { lengthM: 2.5 }),
  inOrder: '1 kΩ and 100 nF at the board keep sparks and spikes from the pin.',
  also: ['button', 'series', 'filter'],
};
