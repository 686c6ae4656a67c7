import { withStore } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withStore().set('store', { balanced: false }),
  clean: () => withStore(),
  inOrder: 'Balanced, each cell gets its sixth of 15 V and a little more.',
  also: ['guard', 'limiter', 'storeFuse', 'converter'],
};
