import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('computer', { storage: 'written' }).set('relay', { holdS: 44.5 }),
  clean: () => bench().set('computer', { storage: 'protected' }).set('relay', { holdS: 44.5 }),
  inOrder: 'Its system is read-only: there is nothing to lose.',
  also: ['fuse', 'relay', 'guard', 'converter'],
};
