import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('sense', { ohm: 680, ratedW: 0.25 }),
  clean: () => bench(),
  inOrder: '2.2 kΩ: a tenth of a watt at 16 V.',
  also: ['senseFuse', 'opto'],
};
