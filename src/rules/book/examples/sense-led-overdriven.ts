import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('sense', { ohm: 680 }).zone('seat', { maxC: 85 }),
  clean: () => bench(),
  inOrder: '2.2 kΩ: 7 mA at 16 V, 16 mA in a clamped load dump.',
  also: ['senseFuse', 'sense', 'ground'],
};
