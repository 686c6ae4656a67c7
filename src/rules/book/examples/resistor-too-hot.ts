import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A resistor across 5 V. */
const across = (ohm: number): Bench => bench().part('r', 'resistor', 'seat', { ohm, ratedW: 0.5 }).wire('converter.out', 'r.1').wire('r.2', 'converter.0v');

export const example: Example = {
  flagged: () => across(10),
  clean: () => across(2200),
  inOrder: '2.2 kΩ across 5 V turn 12 mW to heat.',
  also: ['converter'],
};
