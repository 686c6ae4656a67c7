import { describe, expect, it } from 'vitest';
import type { Opto } from '../../../src/circuit/types.ts';
import { optocoupler } from '../../../src/parts/kinds/optocoupler.ts';
import type { Bench } from '../bench.ts';
import { ohms, solveBench, source } from '../bench.ts';
import { behave, element } from '../situation.ts';

/** The part's element, with one parameter moved to a corner of its tolerance. */
function opto(type: string, ambientC = 25, corner: { readonly ctr?: 0 | 1; readonly vF?: 0 | 1 } = {}): Opto {
  const e = element(behave(optocoupler, { type }, { ambientC }), 'opto', 'opto');
  const ctr = e.tol?.ctr as readonly [number, number];
  const vF = e.tol?.vF as readonly [number, number];
  return { ...e, ctr: e.ctr * (corner.ctr === undefined ? 1 : ctr[corner.ctr]), vF: e.vF * (corner.vF === undefined ? 1 : vF[corner.vF]) };
}

/** LED current set by a stiff source behind a large resistance, collector held at `vCe` behind `ohm`. */
function measure(e: Opto, ledA: number, vCe: number, ohm = 0.01): Bench {
  const around = [source('drive', 'drive', '0', ledA * 1e6, 1e6), ohms('j', 'drive', 'A', 0.001), ohms('k', 'K', '0', 0.001), ohms('e', 'E', '0', 0.001)];
  return solveBench([...around, source('supply', 'rail', '0', vCe), ohms('load', 'rail', 'C', ohm), e]);
}

describe('optocoupler against its data sheets', () => {
  it.each([
    // 817 family, two makers' sheets (read): ranks at I_F 5 mA, V_CE 5 V.
    ['817a', 0.005, 5, 0.8, 1.6],
    ['817b', 0.005, 5, 1.3, 2.6],
    // 4N25 sheets (read): at least 20 %, typically 70 % at I_F 10 mA, V_CE 10 V. 4N35 sheet (read): at least 100 %.
    ['4n25', 0.01, 10, 0.2, 1.4],
    ['4n35', 0.01, 10, 1.0, 3.0],
  ])('%s passes on a current inside its rank', (type, ledA, vCe, least, most) => {
    const b = measure(opto(type), ledA, vCe);
    expect(b.amps('opto', 'led')).toBeCloseTo(ledA, 5);
    const ratio = b.amps('opto', 'out') / b.amps('opto', 'led');
    expect(ratio).toBeGreaterThan(least);
    expect(ratio).toBeLessThan(most);
  });

  it('its weak corner is the least of the rank after ten years (0.7, common practice), its strong corner the top of the rank', () => {
    expect(measure(opto('817a', 25, { ctr: 0 }), 0.005, 5).amps('opto', 'out')).toBeCloseTo(0.7 * 0.8 * 0.005, 5);
    expect(measure(opto('817a', 25, { ctr: 1 }), 0.005, 5).amps('opto', 'out')).toBeCloseTo(1.6 * 0.005, 5);
  });

  it('has 1.2 V at 20 mA, 1.4 V at most (817 sheets, read); 1.5 V at 10 mA at most for a 4N25 (read)', () => {
    expect(measure(opto('817a'), 0.02, 5).volts('A')).toBeCloseTo(1.2, 2);
    expect(measure(opto('817a', 25, { vF: 1 }), 0.02, 5).volts('A')).toBeCloseTo(1.4, 2);
    expect(measure(opto('4n25', 25, { vF: 1 }), 0.01, 10).volts('A')).toBeCloseTo(1.5, 2);
  });

  it('saturates below 0.2 V at I_F 20 mA, I_C 1 mA (817 sheets, read)', () => {
    const b = measure(opto('817a'), 0.02, 5, 4800);
    expect(b.amps('opto', 'out')).toBeCloseTo(0.001, 4);
    expect(b.volts('C') - b.volts('E')).toBeLessThan(0.2);
  });

  it('leaks no more than 100 nA dark at 25 degrees C, 64 times that at 85 (817 sheets, read; doubling per 10 K, common practice)', () => {
    expect(opto('817a').darkA).toBeCloseTo(100e-9, 12);
    expect(opto('817a', 85).darkA).toBeCloseTo(6.4e-6, 9);
    expect(measure(opto('817a'), 0, 20).amps('opto', 'out')).toBeGreaterThan(0);
    expect(measure(opto('817a'), 0, 20).amps('opto', 'out')).toBeLessThan(130e-9);
  });

  it('loses three tenths of its transfer at 85 degrees C and gains none in the cold (common practice)', () => {
    expect(opto('817a', 85).ctr / opto('817a', 25).ctr).toBeCloseTo(0.7, 6);
    expect(opto('817a', -40).ctr).toBe(opto('817a', 25).ctr);
  });

  it('pulls a pin low from 9 V through 2.2 kohm: the sense cell at its weak corner (3.3 mA, 1.03 mA available against 0.34 mA)', () => {
    const e = opto('817a', 85, { ctr: 0, vF: 1 });
    const b = solveBench([
      source('line', 'line', '0', 9),
      ohms('series', 'line', 'A', 2200 * 1.05),
      ohms('k', 'K', '0', 0.001),
      ohms('e', 'E', '0', 0.001),
      source('rail', 'rail', '0', 3.465),
      ohms('pull', 'rail', 'C', 9500),
      e,
    ]);
    expect(b.amps('opto', 'led')).toBeGreaterThan(0.0032);
    // Newer pins read low up to 0.8 V (board maker's pin tables, read).
    expect(b.volts('C')).toBeLessThan(0.8);
  });
});
