import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().without('reverse'),
  clean: () => bench(),
  inOrder: 'A small diode across the LED, its ring at the LED’s anode.',
};
