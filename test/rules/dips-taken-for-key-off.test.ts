import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { sensedOn, straight, withIgnition } from './plansSense.ts';

const RULE = 'dips-taken-for-key-off';

describe('dips taken for key-off', () => {
  it('3 s outlasts every dip', () => clean(bench(), RULE));

  it('0.4 s against a sag of 0.5 s when the starter takes hold (practice)', () => {
    const b = bench().set('computer', { filterS: 0.4 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { waits: 0.4, 'may look dead': 0.5 }, says: ['starter takes hold'], repairs: 1 });
    clean(bench().set('computer', { filterS: 0.5 }), RULE);
  });

  it('a line that is dead while starting still bounces for 0.2 s', () => {
    const b = sensedOn('75').set('computer', { filterS: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'may look dead': 0.2 }, says: ['key is turned'] });
    clean(sensedOn('75').set('computer', { filterS: 0.2 }), RULE);
  });

  it('a computer that watches nothing takes nothing for key-off', () => quiet(withIgnition(straight('30')).set('computer', { filterS: 0 }), RULE));
});
