import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().without('pull').set('computer', { gpio16Mode: 'in-up' }).zone('seat', { maxC: 85 }),
  clean: () => bench().zone('seat', { maxC: 85 }),
  inOrder: '10 kΩ to 3.3 V hold the pin up in the heat.',
  also: ['computer'],
};
