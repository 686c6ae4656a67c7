import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('converter', { setV: 5, setTol: 0.05 }).cut('four', 'zero9', 'zero14'),
  clean: () => bench(),
  inOrder: '5.12 V ± 2 % over two 5 V pins and three ground pins.',
  also: ['converter'],
};
