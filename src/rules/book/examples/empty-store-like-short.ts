import type { Bench } from '../bench.ts';
import { onIgnition } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** 25 F for the converter’s 5 V. */
function onFive(): Bench {
  return onIgnition()
    .set('converter', { setV: 5.1, limitMinA: 3.4, limitMaxA: 4, ratedA: 3 })
    .part('store', 'capacitor', 'seat', { farad: 25, ratedV: 6.3, esrOhm: 0.01 })
    .wire('store.-', 'converter.0v', { lengthM: 0.1 });
}

export const example: Example = {
  flagged: () => onFive().wire('store.+', 'converter.out', { lengthM: 0.1 }),
  clean: () =>
    onFive().part('r', 'resistor', 'seat', { ohm: 10, ratedW: 2 }).wire('store.+', 'r.1', { lengthM: 0.1 }).wire('r.2', 'converter.out', { lengthM: 0.1 }),
  inOrder: '10 Ω fill it slowly.',
  also: ['guard', 'converter', 'computer'],
};
