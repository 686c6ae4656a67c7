import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-resistor-too-hot';

describe('resistor of the key sensor gets too hot', () => {
  it('2.2 kΩ 1/4 W on 12 V: 0.108 W, well below', () => {
    clean(bench(), RULE);
  });

  it('680 Ω 1/4 W behind the dash: 15² / 646 Ω = 0.348 W on 0.25 W', () => {
    // Nominal figures of the worked example: 16 V, V_F 1.0 V, R −5 %.
    const b = bench().set('sense', { ohm: 680, ratedW: 0.25 });
    const f = flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('sense'),
      figures: { heat: 0.348, 'may take': 0.25, 'heat at charging voltage': 0.256 },
      says: ['680 Ω', '16 V'],
      repairs: 1,
    });
    expect(f.state).toBe('RUN_CHARGING');
  });

  it('on the dash top at 85 °C it may take 0.206 W', () => {
    const b = bench().set('sense', { ohm: 680, ratedW: 0.25 }).zone('dash', { kind: 'dash-top' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('sense'), figures: { 'may take': 0.206 } });
  });

  it('24 V: 4.7 kΩ 1/2 W takes 0.215 W of 0.5 W; 2.2 kΩ 1/4 W takes 0.460 W', () => {
    const b = bench('bench24', { systemV: 24 }).set('sense', { ohm: 2200, ratedW: 0.25 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('sense'), figures: { heat: 0.46 }, repairs: 1 });
    clean(bench('clean24', { systemV: 24 }).set('sense', { ohm: 4700, ratedW: 0.5 }), RULE);
  });

  it('above 60 % of what it may take: advice', () => {
    // 15² / (1200 × 0.95) = 0.197 W of 0.25 W.
    const b = bench().set('sense', { ohm: 1200, ratedW: 0.25 });
    flagged(b, RULE, { level: 'advice', subject: b.id('sense'), figures: { heat: 0.197 }, repairs: 1 });
  });

  it('either side of 60 % and of all it may take: 15² / (0.95 R) against 0.15 W and 0.25 W', () => {
    const at = (ohm: number) => bench().set('sense', { ohm, ratedW: 0.25 });
    clean(at(1600), RULE);
    flagged(at(1550), RULE, { level: 'advice', subject: at(1550).id('sense') });
    flagged(at(960), RULE, { level: 'advice', subject: at(960).id('sense') });
    flagged(at(930), RULE, { level: 'hazard', subject: at(930).id('sense') });
  });

  it('two in line share the heat', () => {
    // 15 V / (2 × 646 Ω) = 11.6 mA: 0.087 W in each.
    const b = bench().set('sense', { ohm: 680, ratedW: 0.25 }).into('led', 'second', 'resistor', ['1', '2'], { ohm: 680 });
    clean(b, RULE);
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
