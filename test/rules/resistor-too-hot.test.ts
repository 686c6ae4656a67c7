import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'resistor-too-hot';
/** A resistor across the 5 V of the converter. */
const across5 = (ohm: number, ratedW = 0.5): Bench =>
  bench().part('r', 'resistor', 'seat', { ohm, ratedW }).wire('converter.out', 'r.1').wire('r.2', 'converter.0v');

describe('resistor gets too hot', () => {
  // 5.12 V² / 10 Ω = 2.6 W; 5.22 V² / 9.5 Ω = 2.87 W less what contacts lose.
  it('10 Ω of half a watt across 5 V', () => {
    const b = across5(10);
    flagged(b, RULE, { level: 'fault', subject: b.id('r'), figures: { heat: 2.84, stands: 0.5 }, says: ['10 Ω'], repairs: 1 });
  });

  it('2.2 kΩ passes', () => {
    clean(across5(2200, 0.25), RULE);
  });

  // 5.22² / R / 0.95 = 0.6 × 0.5 W at 96 Ω, and 0.5 W at 57 Ω.
  it('either side of 60 % and of all it stands', () => {
    clean(across5(100), RULE);
    const warm = across5(91);
    flagged(warm, RULE, { level: 'advice', subject: warm.id('r'), repairs: 1 });
    const hot = across5(56);
    flagged(hot, RULE, { level: 'fault', subject: hot.id('r'), repairs: 1 });
  });

  // Derating of a resistor maker: full at 70 °C, nothing at 155 °C.
  it('in the engine bay half a watt is 0.29 W', () => {
    const b = across5(100).zone('seat', { kind: 'engine-bay' });
    flagged(b, RULE, { level: 'advice', subject: b.id('r'), figures: { stands: 0.294 } });
  });

  it('sensing and indicator resistors belong to other rules', () => {
    quiet(ground(), RULE);
  });
});
