import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import { withLampSense } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** A resistor from the permanent feed on a lamp line. */
function pulled(): Bench {
  return fused('pulled up')
    .part('lampFeed', 'feed-58', 'dash', { bulbCheck: 'no' }, { owner: 'vehicle' })
    .part('pullUp', 'resistor', 'dash', { ohm: 4700 })
    .wire('battery.+', 'lampFeed.in', { owner: 'vehicle' })
    .wire('fuse.2', 'pullUp.1', { lengthM: 0.3 })
    .wire('pullUp.2', 'lampFeed.out', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => pulled(),
  clean: () => withLampSense('58').set('lampFeed', { bulbCheck: 'no' }),
  inOrder: 'The line is sensed with an optocoupler: nothing flows back into it.',
  also: ['fuse', 'pullUp', 'lampFuse', 'lampSense', 'lampOpto'],
};
