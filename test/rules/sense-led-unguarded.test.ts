import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-led-unguarded';

describe('the sensor’s LED has no reverse diode', () => {
  it('a 1N4148 across it', () => {
    clean(bench(), RULE);
  });

  it('bare 817 on the ignition line: 6 V against 14 V and −150 V', () => {
    const b = bench().without('reverse');
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), figures: { 'LED stands in reverse': 6, 'reversed battery': 14 }, says: ['−150 V'], repairs: 1 });
  });

  it('a 4N25 stands 3 V, by the lowest of its makers', () => {
    const b = bench().without('reverse').set('opto', { type: '4n25' });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), figures: { 'LED stands in reverse': 3 } });
  });

  it('a diode the wrong way round does not guard', () => {
    const b = bench().cut('reverse+', 'reverse-').wire('reverse.A', 'opto.A', { lengthM: 0.05 }).wire('reverse.K', 'opto.K', { lengthM: 0.05 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto') });
  });

  it('a 1000 V diode in line blocks; a 40 V one does not', () => {
    clean(bench().without('reverse').into('led', 'block', 'diode', ['A', 'K'], { type: '1n4007' }), RULE);
    const b = bench().without('reverse').into('led', 'block', 'diode', ['A', 'K'], { type: '1n5819' });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto') });
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
