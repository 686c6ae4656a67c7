import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().cut('bulk+', 'bulk-').wire('bulk.-', 'converter.in', { lengthM: 0.1 }).wire('bulk.+', 'converter.gnd', { lengthM: 0.1 }),
  clean: () => bench(),
  inOrder: 'Its plus on the supply, its minus on ground.',
  also: ['guard', 'converter'],
};
