import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'pin-current-too-high';
const PINS = [29, 31, 36, 11, 15, 16, 18];

/** The bench without its sensor, with n LEDs of one colour on output pins, each over its resistor to 0 V. */
function leds(n: number, ohm: number, colour = 'red', board = 'high-power'): Bench {
  let b = bench().without('opto', 'pull', 'reverse', 'sense').set('computer', { board, senseGpio: 0 });
  for (const [i, pin] of PINS.slice(0, n).entries()) {
    b = b
      .part(`r${i}`, 'resistor', 'seat', { ohm })
      .part(`led${i}`, 'led', 'seat', { colour })
      .wire(`computer.${pin}`, `r${i}.1`, { lengthM: 0.05 }, `pin${i}`)
      .wire(`r${i}.2`, `led${i}.A`, { lengthM: 0.05 })
      .wire(`led${i}.K`, 'converter.0v', { lengthM: 0.2 });
  }
  return b;
}

describe('pins are asked for too much current', () => {
  it('five LEDs at about 2 mA: 680 Ω', () => {
    clean(leds(5, 680), RULE);
  });

  // Corner: (3.465 - 1.0) V / 0.95 R; board maker's tables (read): 4 mA as a newer pin starts, 8 mA at its strongest.
  it('either side of 4 mA on a newer board', () => {
    clean(leds(1, 680), RULE);
    const b = leds(1, 560);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin0'), figures: { 'has to give': 0.00463, gives: 0.004 }, repairs: 2 });
  });

  it('above what any pin gives, that is what it is held against', () => {
    const b = leds(1, 270);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin0'), figures: { 'has to give': 0.00961, gives: 0.008 }, says: ['no pin', '8.0 mA'] });
  });

  it('on an older board 8 mA, or 16 mA at the strongest drive', () => {
    clean(leds(1, 330, 'red', 'mid-power'), RULE);
    const b = leds(1, 220, 'red', 'mid-power');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin0'), says: ['8'], repairs: 2 });
    clean(leds(1, 220, 'red', 'mid-power').set('computer', { strongPins: true }), RULE);
  });

  it('five LEDs at 12 mA: 60 mA together are more than the 50 mA that pins share', () => {
    const b = leds(5, 220, 'red', 'mid-power').set('computer', { strongPins: true });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'they share': 0.05, together: 0.059 } });
  });

  it('has nothing to say without an output', () => {
    quiet(bench(), RULE);
  });
});
