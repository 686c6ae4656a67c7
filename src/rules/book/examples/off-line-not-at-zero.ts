import { withLampSense } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withLampSense('reverse').set('lampFeed', { lamps: 'led' }),
  clean: () => withLampSense('reverse').set('lampFeed', { lamps: 'bulb' }),
  inOrder: 'A bulb takes to nothing what the vehicle leaves on its line.',
  also: ['lampFuse', 'lampSense'],
};
