import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench('season', { standingDays: 120 }),
  clean: () => bench('season', { standingDays: 120, isolator: true }),
  inOrder: 'An isolator takes the battery off.',
  also: ['battery', 'strap', 'feed30', 'fuse', 'relay'],
};
