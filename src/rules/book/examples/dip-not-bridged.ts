import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A converter that wants 7.6 V behind a series diode. */
const behindDiode = () => bench().set('guard', { type: 'schottky', dropV: 0.3, reverseV: 200 }).set('bulk', { farad: 2200e-6 });

export const example: Example = {
  flagged: () => behindDiode().set('converter', { stopV: 7.6, startV: 8 }),
  clean: () => behindDiode(),
  inOrder: 'A converter that works down to less than the dip leaves.',
  also: ['guard', 'bulk'],
};
