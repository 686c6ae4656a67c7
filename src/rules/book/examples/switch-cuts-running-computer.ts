import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().into('feed', 'switch', 'master-switch', ['1', '2'], { contact: 'gold' }),
  clean: () => bench().into('trigger', 'switch', 'master-switch', ['1', '2'], { contact: 'gold' }),
  inOrder: 'The switch sits in the line that tells of the key.',
  also: ['fuse', 'senseFuse', 'switch', 'relay', 'guard', 'converter'],
};
