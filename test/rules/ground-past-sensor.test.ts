import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'ground-past-sensor';

/** The bench whose return goes to the battery's negative post itself. */
function onPost(batterySensor?: 'yes' | 'no' | 'unknown'): Bench {
  return bench('on the post', batterySensor ? { batterySensor } : {})
    .cut('return')
    .wire('converter.gnd', 'battery.-', { lengthM: 3.5 }, 'return');
}

describe('ground wire passes the battery sensor by', () => {
  it('on the post of a vehicle that counts there', () => {
    const b = onPost('yes');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('return'), says: ['never counted'], repairs: 1 });
  });

  it('on the post of one that does not count', () => {
    clean(onPost('no'), RULE);
  });

  it('asks for the fact, and only where a wire ends on the post', () => {
    unsure(onPost(), RULE, 'current sensor');
    unsure(onPost('unknown'), RULE, 'current sensor');
    quiet(bench(), RULE);
  });
});
