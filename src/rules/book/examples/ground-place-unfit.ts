import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('ground', { place: 'seat-belt-bolt' }),
  clean: () => bench().set('ground', { place: 'dash-stud' }),
  inOrder: 'A ground stud of the vehicle.',
  also: ['fuse', 'relay', 'guard', 'converter'],
};
