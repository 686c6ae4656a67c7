import { describe, expect, it } from 'vitest';
import { type Burst, burstDipV, limitedDipV } from '../../src/trade/links.ts';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'modem-bursts';
/** One slot of 577 µs; worked examples with 580 µs. */
const burst = (amp: number, farad = 0, esrOhm = 0.03): Burst => ({ amp, seconds: 580e-6, farad, esrOhm });

const modem = (settings: Readonly<Record<string, number>>, board = 'high-power', lengthM = 0.3) =>
  bench()
    .set('computer', { board })
    .part('modem', 'usb-device', 'seat', { what: 'Modem', typA: 0.37, peakA: 0.37, burstA: 2, ...settings })
    .wire('computer.usb1', 'modem.usb', { lengthM, areaMm2: 0.5 });

describe('modem bursts pull its supply down', () => {
  // Worked by hand: 2 A × 0.15 Ω = 0.30 V. Beside 0.05 Ω and 0.15 Ω a 1000 µF hardly acts: 0.100 V and 0.294 V.
  it('behind a stiff supply the resistance of the path decides', () => {
    expect(burstDipV(burst(2), 0.15)).toBeCloseTo(0.3, 3);
    expect(burstDipV(burst(2, 1e-3, 0), 0.05)).toBeCloseTo(0.1, 3);
    expect(burstDipV(burst(2, 1e-3, 0), 0.15)).toBeCloseTo(0.294, 3);
    expect(burstDipV(burst(2, 1, 0.15), 0.15), 'never below both side by side').toBeCloseTo(0.15, 2);
  });

  // (2 − 0.5) A × 0.58 ms / 4400 µF = 0.2 V.
  it('a port that gives 0.5 A leaves 1.5 A to the capacitor: 4400 µF for 0.2 V', () => {
    expect(limitedDipV(burst(2, 4400e-6, 0), 0.5)).toBeCloseTo(0.198, 3);
    expect(limitedDipV(burst(2), 0.5)).toBe(Number.POSITIVE_INFINITY);
  });

  it('2 A on ports that give 1.2 A, with no capacitor', () => {
    const b = modem({});
    flagged(b, RULE, { level: 'fault', subject: b.id('modem'), says: ['1.2 A', 'no capacitor gives the rest'], repairs: 1 });
  });

  // (2 − 1.2) × 0.577 ms / C + 2 × ESR: 2200 µF 0.21 + 0.04 V, 4700 µF 0.10 + 0.03 V. Allowed: 4.75 − 4.50 V.
  it('a capacitor of 4700 µF carries it, one of 1000 µF does not', () => {
    clean(modem({ bufferF: 4700e-6, bufferOhm: 0.015 }), RULE);
    clean(modem({ bufferF: 2200e-6, bufferOhm: 0.019 }), RULE);
    const b = modem({ bufferF: 1000e-6, bufferOhm: 0.03 });
    flagged(b, RULE, { level: 'fault', subject: b.id('modem'), figures: { dip: 0.522 }, repairs: 1 });
  });

  it('bursts below what the port gives: the cable decides', () => {
    clean(modem({ burstA: 1.2 }), RULE);
    const b = modem({ burstA: 1.2 }, 'high-power', 3.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('modem'), says: ['4.50 V'] });
  });

  it('no bursts, nothing to say', () => {
    quiet(bench(), RULE);
    quiet(modem({ burstA: 0 }), RULE);
  });
});
