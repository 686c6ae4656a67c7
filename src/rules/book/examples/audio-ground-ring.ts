import { withSound } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withSound().wire('sound.line', 'aux.aux', { lengthM: 2.3 }),
  clean: () =>
    withSound().part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a', { lengthM: 0.1 }).wire('isolator.b', 'aux.aux', { lengthM: 2.3 }),
  inOrder: 'An isolator passes the sound and no ground.',
  also: ['computer', 'sound', 'aux'],
};
