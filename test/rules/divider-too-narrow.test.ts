import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'divider-too-narrow';
/** Two resistors of 5 % from the fused ignition line to 0 V, their middle at GPIO 5; perhaps a Schottky diode from there to 3.3 V. */
const divider = (top: number, low: number, clamp?: string) => {
  const b = bench()
    .part('top', 'resistor', 'dash', { ohm: top })
    .part('low', 'resistor', 'seat', { ohm: low })
    .wire('senseFuse.2', 'top.1', { lengthM: 0.1 })
    .wire('top.2', 'computer.29', { lengthM: 2 }, 'pin5')
    .wire('low.1', 'top.2', { lengthM: 0.05 })
    .wire('low.2', 'computer.39', { lengthM: 0.1 });
  return clamp === undefined
    ? b
    : b.part('clampD', 'diode', 'seat', { type: clamp }).wire('clampD.A', 'low.1', { lengthM: 0.05 }).wire('clampD.K', 'computer.17', { lengthM: 0.1 });
};

describe('a divider that cannot serve both ends of the supply', () => {
  // Calculated: 16 V x 10.5/(10.5 + 44.65) = 3.05 V; 9 V x 9.5/(9.5 + 49.35) = 1.45 V against 2.0 V.
  it('47 kΩ over 10 kΩ: 3.05 V at 16 V, and 1.45 V at 9 V', () => {
    const b = divider(47_000, 10_000);
    flagged(b, RULE, {
      level: 'fault',
      subject: b.wireId('pin5'),
      figures: { 'pin at the most': 3.05, 'pin at the least': 1.45, 'reads high from': 2 },
      says: ['1.45 V'],
      repairs: 1,
    });
  });

  it('33 kΩ over 10 kΩ: 3.35 V at 14.4 V already, 4.0 V at 16 V, and a 35 V surge into the pin', () => {
    const b = divider(33_000, 10_000);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), figures: { 'pin at the most': 4.01, 'into the pin': 0.00062 }, says: ['35 V'], repairs: 1 });
  });

  // Calculated: 9 V x 9.5/(9.5 + 28.35) = 2.26 V; (35 - 3.67)/25.65 k - 3.67/10.5 k = 0.87 mA.
  it('27 kΩ over 10 kΩ with a Schottky diode to 3.3 V', () => {
    clean(divider(27_000, 10_000, '1n5819'), RULE);
  });

  it('a silicon diode conducts too late to count', () => {
    const b = divider(27_000, 10_000, '1n4148');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5') });
  });

  it('with a smaller upper resistor the surge pushes more than a milliamp into the 3.3 V', () => {
    const b = divider(22_000, 10_000, '1n5819');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5'), says: ['3.3 V'] });
  });

  it('an older board that reads 1.6 V as high: 39 kΩ over 10 kΩ is too much at 16 V', () => {
    const b = divider(39_000, 10_000).set('computer', { board: 'mid-power' });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5'), figures: { 'pin at the most': 3.53, 'pin takes': 3.3 }, repairs: 1 });
  });

  it('has nothing to say without one', () => {
    quiet(bench(), RULE);
  });
});
