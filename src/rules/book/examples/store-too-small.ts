import { withStore } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withStore().set('store', { cellFarad: 25 }),
  clean: () => withStore(),
  inOrder: 'Six cells of 100 F carry the computer for twice the time it needs.',
  also: ['guard', 'limiter', 'storeFuse', 'converter'],
};
