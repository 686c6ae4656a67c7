import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().cut('led-').wire('opto.K', 'converter.gnd', { lengthM: 0.2 }, 'led-'),
  clean: () => bench(),
  inOrder: 'The LED’s return has a wire of its own to the radio ground.',
  also: ['converter', 'ground', 'computer'],
};
