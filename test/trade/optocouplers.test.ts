import { describe, expect, it } from 'vitest';
import { ctrShare, darkA, ledMaxA } from '../../src/trade/optocouplers.ts';
import { OPTOS } from '../../src/trade/semiconductors.ts';

describe('what is left of an optocoupler', () => {
  it('transfer ratio at small currents: half at 3 mA and 0.8 at 5 mA of a part stated at 10 mA (from memory)', () => {
    expect(ctrShare(OPTOS['4n25'], 0.01)).toBe(1);
    expect(ctrShare(OPTOS['4n25'], 0.005)).toBe(0.8);
    expect(ctrShare(OPTOS['4n25'], 0.003)).toBe(0.5);
    // Never more at less current.
    const shares = Array.from({ length: 60 }, (_, i) => ctrShare(OPTOS['817a'], i * 1e-4));
    expect(shares.every((s, i) => i === 0 || s >= shares[i - 1]!)).toBe(true);
    expect(ctrShare(OPTOS['817a'], 0)).toBe(0);
  });

  it('greatest LED current of the 817: 50 mA, about 20 mA at 85 °C (sheet, curve read by eye)', () => {
    expect(ledMaxA(OPTOS['817a'], 25)).toBeCloseTo(0.05, 6);
    expect(ledMaxA(OPTOS['817a'], -30)).toBeCloseTo(0.05, 6);
    expect(ledMaxA(OPTOS['817a'], 85)).toBeCloseTo(0.02, 6);
    expect(ledMaxA(OPTOS['817a'], 150)).toBe(0);
  });

  it('dark current doubles each 10 K: 100 nA is 6.4 µA at 85 °C, 50 nA is 3.2 µA (sheets and practice)', () => {
    expect(darkA(OPTOS['817a'], 85)).toBeCloseTo(6.4e-6, 9);
    expect(darkA(OPTOS['4n25'], 85)).toBeCloseTo(3.2e-6, 9);
  });

  it('refuses what is no figure', () => {
    expect(() => ctrShare(OPTOS['817a'], -1)).toThrow(RangeError);
    expect(() => ledMaxA(OPTOS['817a'], Number.NaN)).toThrow(RangeError);
    expect(() => darkA(OPTOS['817a'], 1000)).toThrow(RangeError);
  });
});
