import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The bulk capacitor in a place of 70 °C. */
const bulk = (ratedC: number): Bench => bench().set('bulk', { ratedC }).zone('seat', { kind: 'dash-top' });

export const example: Example = {
  flagged: () => bulk(85),
  clean: () => bulk(105),
  inOrder: 'Rated 105 °C: 16 000 h at 70 °C.',
  also: ['converter'],
};
