import { describe, expect, it } from 'vitest';
import { formatAmount, parseAmount } from '../../src/trade/preferred.ts';

describe('amounts as people type them', () => {
  it.each([
    ['2k2', 'ohm', 2200],
    ['2K2', 'ohm', 2200],
    ['1R0', 'ohm', 1],
    ['0R47', 'ohm', 0.47],
    ['4M7', 'ohm', 4.7e6],
    ['470', 'ohm', 470],
    ['470 Ω', 'ohm', 470],
    ['2.2 kohm', 'ohm', 2200],
    ['2,2 kΩ', 'ohm', 2200],
    ['10k', 'ohm', 10000],
    ['5 mohm', 'ohm', 0.005],
    ['100R', 'ohm', 100],
    ['4,7 uF', 'F', 4.7e-6],
    ['4.7µF', 'F', 4.7e-6],
    ['470u', 'F', 470e-6],
    ['4u7', 'F', 4.7e-6],
    ['100n', 'F', 1e-7],
    ['100 nF', 'F', 1e-7],
    ['22uH', 'H', 22e-6],
    ['0,5', 'A', 0.5],
    ['500 mA', 'A', 0.5],
    ['.5', 'A', 0.5],
    ['12V', 'V', 12],
    ['-14', 'V', -14],
    ['−14 V', 'V', -14],
    ['1e-3', 'A', 0.001],
    ['1.5', 'mm2', 1.5],
    ['1,5 mm²', 'mm2', 1.5],
    ['2.2', 'm', 2.2],
    ['2.2 m', 'm', 2.2],
    ['80 cm', 'm', 0.8],
    ['3 ft', 'm', 0.9144],
    ['3ft', 'm', 0.9144],
    ["3'", 'm', 0.9144],
    ['40 in', 'm', 1.016],
    ['90 s', 's', 90],
    ['15 ms', 's', 0.015],
    ['5 min', 's', 300],
    ['70 °C', 'degC', 70],
    ['-30', 'degC', -30],
    ['212 °F', 'degC', 100],
    ['5 %', '%', 0.05],
    ['5', '%', 0.05],
    ['90 Ah', 'Ah', 90],
    ['7000 mAh', 'Ah', 7],
    ['30 days', 'days', 30],
    ['4', '', 4],
    ['40 K/W', 'K/W', 40],
    ['12 lm', 'lm', 12],
  ])('"%s" in %s is %s', (text, unit, value) => {
    expect(parseAmount(text, unit)).toBeCloseTo(value, 12);
  });

  it('gauges become areas, metric names stay areas', () => {
    expect(parseAmount('18 AWG', 'mm2')).toBeCloseTo(0.823, 3);
    expect(parseAmount('AWG 18', 'mm2')).toBe(parseAmount('18awg', 'mm2'));
    expect(parseAmount('#18 AWG', 'mm2')).toBe(parseAmount('18 ga', 'mm2'));
  });

  it.each([
    ['', 'ohm'],
    ['k', 'ohm'],
    ['2k2k', 'ohm'],
    ['2k2 F', 'ohm'],
    ['4.7 uF', 'ohm'],
    ['12 V', 'A'],
    ['1R0', 'A'],
    ['3 m', 'mm2'],
    ['18 AWG', 'm'],
    ['99 AWG', 'mm2'],
    ['1.2.3', 'V'],
    ['1,234.5', 'V'],
    ['two', 'V'],
    ['NaN', 'V'],
    ['Infinity', 'V'],
    ['1e999', 'V'],
    ['5 %', 'V'],
    ['3 k', 'm'],
  ])('"%s" is no amount in %s', (text, unit) => {
    expect(parseAmount(text, unit)).toBeNull();
  });

  it('3 m of cable is three metres, never three thousandths', () => {
    expect(parseAmount('3 m', 'm')).toBe(3);
  });
});

describe('amounts as they are printed', () => {
  it.each([
    [2200, 'ohm', 3, '2.2 kΩ'],
    [0.0025, 'ohm', 3, '2.5 mΩ'],
    [0.33, 'ohm', 3, '0.33 Ω'],
    [0.0047, 'F', 3, '4700 µF'],
    [16.7, 'F', 3, '16.7 F'],
    [0.25, 'W', 3, '0.25 W'],
    [0.044, 'W', 3, '44 mW'],
    [470e-6, 'F', 3, '470 µF'],
    [1e-7, 'F', 3, '100 nF'],
    [0.0186, 'A', 3, '18.6 mA'],
    [0.9996, 'A', 3, '1 A'],
    [999.6, 'ohm', 3, '1 kΩ'],
    [50e-9, 'A', 3, '50 nA'],
    [12.345, 'V', 3, '12.3 V'],
    [-14, 'V', 3, '−14 V'],
    [0, 'A', 3, '0 A'],
    [1.5, 'mm2', 3, '1.5 mm²'],
    [0.05, '%', 2, '5 %'],
    [0.146, 'V', 2, '150 mV'],
    [2.5, 'm', 3, '2.5 m'],
    [4, '', 3, '4'],
    [31.25, 'days', 3, '31.3 days'],
    [1234567, 'ohm', 3, '1.23 MΩ'],
    [Number.POSITIVE_INFINITY, 'A', 3, 'unlimited'],
    [Number.NaN, 'A', 3, 'not computed'],
    [7, 'lm', 3, '7 lm'],
  ])('%s in %s to %s figures: %s', (value, unit, digits, text) => {
    expect(formatAmount(value, unit, digits)).toBe(text);
  });

  it('what is printed is read back as the same amount', () => {
    const units = ['ohm', 'F', 'H', 'A', 'V', 'W', 's', 'Hz', 'm', 'mm2', 'degC', 'Ah', 'J', '%', 'days', ''];
    for (const unit of units) {
      for (const value of [0, 1, 0.002, 4.7, 33, 820, 15000]) {
        expect(parseAmount(formatAmount(value, unit, 6), unit), `${value} ${unit}`).toBeCloseTo(value, 9);
      }
    }
  });

  it('refuses a number of figures that is not 1 to 12', () => {
    expect(() => formatAmount(1, 'V', 0)).toThrow(RangeError);
    expect(() => formatAmount(1, 'V', 2.5)).toThrow('2.5');
  });
});
