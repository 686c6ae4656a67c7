import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-led-overdriven';

describe('too much current through the sensor’s LED', () => {
  it('2.2 kΩ: 7.2 mA at 16 V and 16.3 mA at 35 V', () => {
    clean(bench(), RULE);
  });

  it('680 Ω at 85 °C: 23.2 mA of about 20 mA, and 52.6 mA of 50 mA in a clamped load dump', () => {
    const b = bench().set('sense', { ohm: 680 }).zone('seat', { maxC: 85 });
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('opto'),
      figures: { 'LED current': 23.2e-3, 'LED stands': 20e-3, 'LED current in a load dump': 52.6e-3, 'LED stands for a moment': 50e-3 },
      repairs: 1,
    });
  });

  it('820 Ω at 85 °C: not even the dump ends it at once, but it ages', () => {
    // (16 − 1) / 779 = 19.3 mA passes 20 mA at 85 °C; at 90 °C it may take 17.5 mA. (35 − 1) / 779 = 43.6 mA.
    const b = bench().set('sense', { ohm: 820 }).zone('seat', { maxC: 90 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), figures: { 'LED current': 19.3e-3 }, repairs: 1 });
  });

  it('680 Ω in an old vehicle without a clamp: 155 mA', () => {
    const b = bench('old', { centralClamping: 'no' }).set('sense', { ohm: 680 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('opto'), figures: { 'LED current in a load dump': 0.155 } });
  });

  it('24 V without central clamping: 4.7 kΩ gets 45 mA and passes, 2.2 kΩ gets 96 mA', () => {
    clean(bench('24', { systemV: 24, centralClamping: 'no' }).set('sense', { ohm: 4700 }), RULE);
    const b = bench('24b', { systemV: 24, centralClamping: 'no' }).set('sense', { ohm: 2200 }).set('opto', { type: '4n25' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('opto'), figures: { 'LED current in a load dump': 96e-3 } });
  });

  it('no resistor at all', () => {
    const b = bench().without('sense').wire('senseFuse.2', 'opto.A', { lengthM: 2.3 }, 'bare');
    flagged(b, RULE, { level: 'hazard', subject: b.id('opto'), says: ['no resistor'], repairs: 1 });
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});

describe('beside a hot resistor', () => {
  it('both are one card when both are hazards, and a hazard is never hidden behind advice', () => {
    const small = compute(bench().set('sense', { ohm: 680, ratedW: 0.25 })).report;
    expect(small.cards.map((c) => c.rule)).not.toContain(RULE);
    expect(small.cards.find((c) => c.rule === 'sense-resistor-too-hot')?.folded.map((f) => f.rule)).toContain(RULE);
    // 1.2 kΩ: 0.197 W is advice, 100 V / 1140 Ω = 88 mA in an unclamped dump is a hazard.
    const dump = compute(bench('old', { centralClamping: 'no' }).set('sense', { ohm: 1200, ratedW: 0.25 })).report;
    expect(dump.findings.find((f) => f.rule === 'sense-resistor-too-hot')?.level).toBe('advice');
    expect(dump.cards.find((c) => c.rule === RULE)?.level).toBe('hazard');
  });
});
