import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The ignition lead, shared with that. */
const lead = (serves: string): Bench => bench().set('feed15', { serves });

export const example: Example = {
  flagged: () => lead('critical'),
  clean: () => lead('comfort'),
  inOrder: 'The radio’s lead, which nothing but comfort hangs on.',
  also: ['senseFuse'],
};
