import type { Bench } from '../bench.ts';
import { withSound } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** Sound over copper to the radio. */
function sound(): Bench {
  return withSound().wire('sound.line', 'aux.aux', { lengthM: 2.3 });
}

export const example: Example = {
  flagged: () => sound(),
  clean: () => sound().set('bulk', { farad: 220e-6, esrOhm: 0.33 }).into('toConverter', 'choke', 'choke', ['1', '2'], { henry: 22e-6 }),
  inOrder: 'A choke ahead and a capacitor behind, damped by its own resistance.',
  also: ['guard', 'bulk', 'sound', 'aux'],
};
