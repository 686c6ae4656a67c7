import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A rocker at a pin with its own pull-up. */
const rocker = (contact: string): Bench =>
  bench()
    .part('rocker', 'master-switch', 'seat', { contact })
    .wire('rocker.1', 'computer.29')
    .wire('rocker.2', 'computer.30')
    .set('computer', { gpio5Mode: 'in-up' });

export const example: Example = {
  flagged: () => rocker('silver'),
  clean: () => rocker('gold'),
  inOrder: 'Gold is content with 10 µA; the pin gives 43 µA.',
};
