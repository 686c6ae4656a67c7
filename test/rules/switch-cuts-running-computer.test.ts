import { describe, expect, it } from 'vitest';
import { clean, compute, findingsOf, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { withStore } from './plansSense.ts';

const RULE = 'switch-cuts-running-computer';

describe('a switch that cuts the running computer', () => {
  it('in the supply, ahead of the hold relay: 3 + 3 + 25 s of stop and a quarter more are wanted', () => {
    const b = bench().into('feed', 'switch', 'master-switch', ['1', '2']);
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { needed: 38.75 }, says: ['switch', 'cuts the running computer'] });
    // Said once: held long enough, it lacks nothing else.
    expect(findingsOf(compute(b), 'power-gone-too-soon')).toEqual([]);
  });

  it('behind the hold relay too', () => {
    const b = bench().into('out', 'switch', 'master-switch', ['1', '2']);
    flagged(b, RULE, { level: 'fault', subject: b.id('computer') });
  });

  it('in the line that tells of the key it asks for a stop', () =>
    clean(bench().into('trigger', 'switch', 'master-switch', ['1', '2'], { contact: 'gold' }), RULE));

  it('ahead of a store that carries the computer long enough', () => {
    clean(withStore().into('feed', 'switch', 'master-switch', ['1', '2']), RULE);
  });

  it('no switch, nothing to say', () => quiet(bench(), RULE));
});
