import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A relay with a diode inside, its coil between ignition and ground. */
function coil(plus: '86' | '85', minus: '86' | '85'): Bench {
  return bench('relay with a diode').part('k', 'relay', 'seat', { suppression: 'diode' }).wire('senseFuse.2', `k.${plus}`).wire(`k.${minus}`, 'converter.gnd');
}

export const example: Example = {
  flagged: () => coil('85', '86'),
  clean: () => coil('86', '85'),
  inOrder: 'Plus comes at 86, where the ring of the diode is.',
  also: ['senseFuse'],
};
