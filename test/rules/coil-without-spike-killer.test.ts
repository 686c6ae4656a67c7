import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, coilOnOpto, ground } from './plans.ts';

const RULE = 'coil-without-spike-killer';
const relay = (suppression: string) => bench().part('k', 'relay', 'seat', { suppression }).wire('senseFuse.2', 'k.86').wire('k.85', 'converter.gnd');
describe('coil without a spike killer', () => {
  it('the hold relay has a diode inside; so has this relay', () => {
    clean(bench(), RULE);
    clean(relay('diode'), RULE);
    clean(relay('resistor'), RULE);
  });

  it('bare, on a contact: fault', () => {
    const b = relay('none');
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), repairs: 1 });
  });

  it('a diode outside is as good', () => {
    clean(relay('none').part('d', 'diode', 'seat', { type: '1n4007' }).wire('d.K', 'k.86').wire('d.A', 'k.85'), RULE);
  });

  it('86 at ground: the diode goes outside, the right way round', () => {
    const b = bench().part('k', 'relay', 'seat', { suppression: 'none' }).wire('senseFuse.2', 'k.85').wire('k.86', 'converter.gnd');
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), repairs: 1 });
  });

  it('bare, switched by a transistor: hazard', () => {
    const b = coilOnOpto({ suppression: 'none' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), says: ['driver', '35 V'], repairs: 1 });
  });

  it('680 Ω let 150 V come back: 16 V + 16 V / 81 Ω × 680 Ω', () => {
    const b = coilOnOpto({ suppression: 'resistor', suppressionOhm: 680 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), figures: { spike: 150.3 }, repairs: 1 });
  });

  // A clamp lets its own volts come back on top of the supply: 16 V and what it stands at the coil's 0.2 A, at most 0.8 × 60 V = 48 V.
  const clamped = (settings: Record<string, number | boolean>, at: 'coil' | 'driver' = 'coil') =>
    bench()
      .part('k', 'relay', 'seat', { suppression: 'none' })
      .part('driver', 'low-side-driver', 'seat')
      .part('clamp2', 'surge-clamp', 'seat', { clampV: 43, peakA: 14, ...settings })
      .wire('relay.87', 'k.86')
      .wire('k.85', 'driver.out', {}, 'low')
      .wire('driver.gnd', 'converter.0v')
      .wire('computer.38', 'driver.in')
      .wire('clamp2.K', at === 'coil' ? 'k.86' : 'k.85')
      .wire('clamp2.A', at === 'coil' ? 'k.85' : 'driver.gnd');

  it('a clamp across the coil: either side of what the driver bears', () => {
    clean(clamped({ brMinV: 28.9, brMaxV: 31.8, bidirectional: true }), RULE);
    const b = clamped({ brMinV: 29.1, brMaxV: 32.1, bidirectional: true });
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), figures: { spike: 48.3 }, says: ['clamp2', '60 V'], repairs: 1 });
  });

  it('a one-way clamp with its ring at plus is a diode; one across the driver counts alone', () => {
    clean(clamped({ brMinV: 36.7, brMaxV: 40.6 }), RULE);
    clean(clamped({ brMinV: 36.7, brMaxV: 40.6 }, 'driver'), RULE);
    const b = clamped({ brMinV: 44, brMaxV: 49, clampV: 64 }, 'driver');
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), figures: { spike: 49.2 }, repairs: 1 });
  });

  // Worked: (0.8 × 60 V − 16 V) × 81 Ω / 16 V = 162 Ω for the usual driver of 60 V; 16 V + 16 V / 81 Ω × 180 Ω = 51.6 V.
  const outside = (ohm: number) =>
    bench()
      .part('k', 'relay', 'seat', { suppression: 'none' })
      .part('driver', 'low-side-driver', 'seat')
      .part('across', 'resistor', 'seat', { ohm, ratedW: 5 })
      .wire('relay.87', 'k.86')
      .wire('k.85', 'driver.out')
      .wire('driver.gnd', 'converter.0v')
      .wire('computer.11', 'driver.in')
      .wire('across.1', 'k.86')
      .wire('across.2', 'k.85');

  it('a resistor outside must be as small as one inside: 150 Ω do at a driver of 60 V, 180 Ω and 10 kΩ do not', () => {
    clean(outside(150), RULE);
    const b = outside(180);
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), figures: { spike: 16 + (16 / 81) * 180 * 1.05, 'resistor at most': 162 }, repairs: 1 });
    const large = outside(10_000);
    flagged(large, RULE, { level: 'hazard', subject: large.id('k'), repairs: 1 });
    clean(outside(180).part('d', 'diode', 'seat', { type: '1n4007' }).wire('d.K', 'k.86').wire('d.A', 'k.85'), RULE);
  });

  it('a timer without one throws it at its own transistor', () => {
    const b = bench().set('relay', { suppression: 'none' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('relay'), repairs: 1 });
  });

  it('has nothing to say without a coil', () => {
    quiet(ground(), RULE);
  });
});
