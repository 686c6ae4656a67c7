import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { bench } from './plans.ts';
import { keyDivider, sensedOn } from './plansSense.ts';

const RULE = 'sense-falls-while-starting';

describe('sense line falls while starting', () => {
  it('ignition stays live while starting (workshop continuity chart, read)', () => {
    clean(bench(), RULE);
    clean(bench().set('computer', { filterS: 1 }), RULE);
  });

  it('accessory with a filter of 1 s against starts of up to 10 s (practice)', () => {
    const b = sensedOn('75').set('computer', { filterS: 1 });
    flagged(b, RULE, {
      level: 'fault',
      subject: b.id('opto'),
      figures: { waits: 1, 'longest start': 10 },
      says: ['dead while the starter turns', '10 s'],
      repairs: 2,
    });
  });

  it('9.9 s is too short, 10 s and 15 s are not', () => {
    const at = (filterS: number) => sensedOn('75').set('relay', { holdS: 120 }).set('computer', { filterS });
    const b = at(9.9);
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), repairs: 2 });
    clean(at(10), RULE);
    clean(at(15), RULE);
  });

  it('the longer filter raises a hold time that would no longer do: 1.25 × (15 + 3 + 25) = 53.75 s of 54 s less 10 %', () => {
    const b = sensedOn('75', 'short hold').set('relay', { holdS: 54 });
    expect(repairsOf(b, RULE).map((r) => r.title)).toContainEqual(expect.stringMatching(/wait 15 s.*hold 60 s/));
  });

  it('a line that is live in a start by another way is not dead: ignition over a diode', () => {
    const b = sensedOn('75')
      .part('or', 'diode', 'dash', { type: '1n4007' })
      .wire('senseFuse.2', 'or.A', { lengthM: 0.05 })
      .wire('or.K', 'sense.1', { lengthM: 0.05 });
    clean(b, RULE);
  });

  it('a person who knows the engine may set another longest start', () => {
    clean(sensedOn('75').threshold('starterS', 2), RULE);
  });

  it('a divider on accessory falls in each start as an optocoupler does', () => {
    const at = (filterS: number) => keyDivider('feed-75').set('relay', { holdS: 120 }).set('computer', { filterS });
    const b = at(3);
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { waits: 3, 'longest start': 10 }, says: ['GPIO 16'], repairs: 1 });
    clean(at(10), RULE);
    clean(keyDivider('feed-15'), RULE);
  });

  it('lamps follow no key: another rule speaks', () => quiet(sensedOn('58'), RULE));
});
