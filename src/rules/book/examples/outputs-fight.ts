import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () =>
    bench()
      .part('button', 'push-button', 'seat')
      .wire('computer.29', 'button.1', { lengthM: 0.2 })
      .wire('button.2', 'computer.39', { lengthM: 0.2 })
      .set('computer', { gpio5Mode: 'out' }),
  clean: () =>
    bench()
      .part('button', 'push-button', 'seat')
      .part('series', 'resistor', 'seat', { ohm: 1000 })
      .wire('computer.29', 'series.1', { lengthM: 0.05 })
      .wire('series.2', 'button.1', { lengthM: 0.2 })
      .wire('button.2', 'computer.39', { lengthM: 0.2 })
      .set('computer', { gpio5Mode: 'out' }),
  inOrder: '1 kΩ in the wire keep it to 3 mA.',
  also: ['button', 'series'],
};
