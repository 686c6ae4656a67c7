import { withLampSense } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withLampSense('reverse'),
  clean: () => withLampSense('reverse').set('computer', { inputFilterS: 0.05 }),
  inOrder: 'The program waits 50 ms before it believes the pin.',
  also: ['lampFuse', 'lampSense', 'computer'],
};
