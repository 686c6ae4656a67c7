import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-drifts-when-hot';

describe('key sensor drifts when hot', () => {
  it('10 kΩ external: 2.96 V at 85 °C', () => {
    clean(bench().zone('seat', { maxC: 85 }), RULE);
  });

  it('the pin’s own pull-up alone, 73 kΩ on the newer class: 16.4 µA at 85 °C leave 1.94 V of 2.3 V', () => {
    const b = bench().without('pull').set('computer', { gpio16Mode: 'in-up' }).zone('seat', { maxC: 85 });
    flagged(b, RULE, {
      level: 'fault',
      subject: b.id('opto'),
      figures: { leak: 16.4e-6, 'resting level': 1.94, limit: 2.3 },
      repairs: 1,
    });
  });

  it('a 4N25 there: 13.2 µA; 33 kΩ with the pin’s own pull off holds', () => {
    const b = bench().without('pull').set('opto', { type: '4n25' }).set('computer', { gpio16Mode: 'in-up' }).zone('seat', { maxC: 85 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), figures: { leak: 13.2e-6 } });
    clean(bench().set('opto', { type: '4n25' }).set('pull', { ohm: 33_000 }).zone('seat', { maxC: 85 }), RULE);
  });

  it('has nothing to say where nothing pulls, or without a sensor', () => {
    quiet(bench().without('pull').set('computer', { gpio16Mode: 'in' }), RULE);
    quiet(ground(), RULE);
  });
});
