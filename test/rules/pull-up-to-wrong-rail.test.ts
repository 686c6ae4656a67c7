import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'pull-up-to-wrong-rail';

describe('pull-up to the wrong rail', () => {
  it('10 kΩ to 3.3 V', () => {
    clean(bench(), RULE);
  });

  it('10 kΩ to 12 V: 0.81 mA through the guard diode', () => {
    // (12 − 3.9) / 10 kΩ.
    const b = bench().cut('pull-').wire('pull.2', 'relay.87', {}, 'pull-');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin'), figures: { 'pulled up to': 12, 'through the guard diode': 0.81e-3 }, repairs: 1 });
  });

  it('10 kΩ to 5 V', () => {
    const b = bench().cut('pull-').wire('pull.2', 'converter.out', {}, 'pull-');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin'), figures: { 'pulled up to': 5.12 }, repairs: 1 });
  });

  it('a small one to 5 V is this rule’s and not the straight-in rule’s', () => {
    const b = bench().set('pull', { ohm: 4700 }).cut('pull-').wire('pull.2', 'converter.out', {}, 'pull-');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin'), repairs: 1 });
    clean(b, 'vehicle-voltage-at-pin');
  });

  it('has nothing to say without a pull', () => {
    quiet(ground(), RULE);
  });
});
