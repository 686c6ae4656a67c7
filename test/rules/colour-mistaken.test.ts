import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'colour-mistaken';

describe('wire colour that can be mistaken', () => {
  it('automatic colours', () => clean(bench(), RULE));

  it('orange in a vehicle that drives electrically', () => {
    const b = bench('electric', { electrified: true }).wireSet('feed', { colour: 'OG' });
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('feed'), repairs: 1 });
    clean(bench().wireSet('feed', { colour: 'OG' }), RULE);
  });

  it('all yellow, as restraint wiring is (workshop manuals, read); a stripe tells it apart', () => {
    const b = bench().wireSet('feed', { colour: 'YE' });
    flagged(b, RULE, { level: 'advice', subject: b.wireId('feed'), repairs: 1 });
    clean(bench().wireSet('feed', { colour: 'YE', stripe: 'RD' }), RULE);
  });

  it('12 V in black', () => {
    const b = bench().wireSet('feed', { colour: 'BK' });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('feed'), says: ['black', '12 V'], repairs: 1 });
  });

  it('ground in blue', () => {
    const b = bench().wireSet('return', { colour: 'BU' });
    flagged(b, RULE, { level: 'advice', subject: b.wireId('return'), repairs: 1 });
    clean(bench().wireSet('return', { colour: 'BN' }), RULE);
  });

  it('5 V and 12 V alike in one place', () => {
    const b = bench().wireSet('five', { colour: 'RD', areaMm2: 1.5 }).wireSet('four', { colour: 'RD', areaMm2: 1.5 }).wireSet('feed', { areaMm2: 1.5 });
    flagged(b, RULE, { level: 'advice', subject: b.wireId('five'), says: ['red'], repairs: 1 });
    // Another size is another wire to the hand.
    clean(bench().wireSet('five', { colour: 'RD', areaMm2: 1 }).wireSet('four', { colour: 'RD', areaMm2: 1 }).wireSet('feed', { areaMm2: 2.5 }), RULE);
  });

  it('before and behind a fuse one colour goes on', () => clean(bench().wireSet('tap', { areaMm2: 1.5 }).wireSet('feed', { areaMm2: 1.5 }), RULE));

  it('says nothing without a wire of ours', () => quiet(ground(), RULE));
});
