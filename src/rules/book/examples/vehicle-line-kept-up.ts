import type { Bench } from '../bench.ts';
import { bench, fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A resistor from the permanent feed on a lamp line. */
function pulled(): Bench {
  return fused('pulled up')
    .part('lampFeed', 'feed-58', 'dash', { bulbCheck: 'no' }, { owner: 'vehicle' })
    .part('pull', 'resistor', 'dash', { ohm: 4700 })
    .wire('battery.+', 'lampFeed.in', { owner: 'vehicle' })
    .wire('fuse.2', 'pull.1', { lengthM: 0.3 })
    .wire('pull.2', 'lampFeed.out', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => pulled(),
  clean: () => bench(),
  inOrder: 'The line is sensed with an optocoupler: nothing flows back into it.',
  also: ['pull'],
};
