import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench('level II', { dipLevel: 'II' }),
  clean: () => bench(),
  inOrder: 'The vehicle’s supply stays at 8.5 V while the starter turns, and the converter works from less.',
  also: ['fuse', 'relay', 'guard', 'computer'],
};
