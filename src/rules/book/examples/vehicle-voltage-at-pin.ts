import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The bench with a reversing lamp's lead, behind a fuse. */
export const lamp = () =>
  bench()
    .part('lamp', 'feed-reverse', 'dash', {}, { owner: 'vehicle' })
    .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
    .wire('battery.+', 'lamp.in', { owner: 'vehicle' })
    .wire('lamp.out', 'lampFuse.1', { lengthM: 0.1 });

export const example: Example = {
  flagged: () => lamp().wire('lampFuse.2', 'computer.11', { lengthM: 2 }),
  clean: () =>
    lamp()
      .part('top', 'resistor', 'seat', { ohm: 6800 })
      .part('low', 'resistor', 'seat', { ohm: 1000 })
      .wire('lampFuse.2', 'top.1', { lengthM: 2 })
      .wire('top.2', 'computer.11', { lengthM: 0.1 })
      .wire('low.1', 'top.2', { lengthM: 0.05 })
      .wire('low.2', 'computer.39', { lengthM: 0.1 }),
  inOrder: 'A divider keeps the pin below 3.3 V; an optocoupler would do as well.',
  also: ['lamp', 'lampFuse'],
};
