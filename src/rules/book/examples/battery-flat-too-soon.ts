import type { Bench } from '../bench.ts';
import { straight } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** A converter alone on a permanent feed, at an idle current. */
function idle(amp: number): Bench {
  return straight('30', 'idle', { batteryAh: 60, parkedA: 0.03 }).without('computer').set('converter', { quiescentA: amp });
}

export const example: Example = {
  flagged: () => idle(0.077),
  clean: () => idle(0.002),
  inOrder: 'A converter that idles at 2 mA shortens the standing time by two days.',
  also: ['battery', 'feed30', 'fuse', 'guard', 'converter'],
};
