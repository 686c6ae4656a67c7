import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'long-button-wire';
const button = (lengthM: number) =>
  bench().part('button', 'push-button', 'desk').wire('button.1', 'computer.29', { lengthM }, 'pin').wire('button.2', 'converter.0v', { lengthM });
const guarded = (lengthM: number, ohm = 1000, farad = 100e-9) =>
  bench()
    .part('button', 'push-button', 'desk')
    .part('r', 'resistor', 'seat', { ohm })
    .part('c', 'capacitor', 'seat', { farad, polarised: false })
    .wire('r.1', 'computer.29', { lengthM: 0.05 }, 'pin')
    .wire('r.2', 'button.1', { lengthM })
    .wire('c.+', 'r.1', { lengthM: 0.05 })
    .wire('c.-', 'computer.39', { lengthM: 0.05 })
    .wire('button.2', 'converter.0v', { lengthM });

describe('long button wire without a guard', () => {
  it('either side of half a metre', () => {
    clean(button(0.45), RULE);
    const b = button(0.6);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin'), figures: { 'away from the pin': 0.6 }, repairs: 1 });
  });

  it('who leaves a metre bare says so in the plan', () => {
    clean(button(0.9).threshold('bareButtonM', 1), RULE);
    const b = button(1.1).threshold('bareButtonM', 1);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin') });
  });

  it('2.5 m bare, and with 1 kΩ and 100 nF at the board', () => {
    const b = button(2.5);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin'), says: ['2.5 m', 'GPIO 5'], repairs: 1 });
    clean(guarded(2.5), RULE);
  });

  it('resistor or capacitor too small: no guard', () => {
    const small = guarded(2.5, 100);
    flagged(small, RULE, { level: 'advice', subject: small.wireId('pin') });
    const little = guarded(2.5, 1000, 1e-9);
    flagged(little, RULE, { level: 'advice', subject: little.wireId('pin') });
  });

  it('above 3 m: fault bare, advice guarded', () => {
    const bare = button(3.2);
    flagged(bare, RULE, { level: 'fault', subject: bare.wireId('pin') });
    const far = guarded(3.2);
    flagged(far, RULE, { level: 'advice', subject: far.wireId('pin') });
  });

  it('has nothing to say without a button', () => {
    quiet(bench(), RULE);
  });
});
