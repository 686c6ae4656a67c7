import { describe, expect, it } from 'vitest';
import { amount, amps, area, count, days, drop, length, share, significant, volts, watts, wattsPerLength } from '../../src/faces/format.ts';

const metric = { area: 'mm2', length: 'm' } as const;
const imperial = { area: 'awg', length: 'ft' } as const;
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('figures on screen', () => {
  it.each([
    [0, 2, '0'],
    [0.0384, 2, '0.038'],
    [9.996, 2, '10'],
    [0.0999, 2, '0.1'],
    [1234.5, 2, '1235'],
    [12.34, 3, '12.3'],
    [-2.345, 2, '-2.3'],
    [Number.NaN, 2, '–'],
  ])('%d to %d figures is %s', (value, digits, text) => expect(significant(value, digits)).toBe(text));

  it.each([
    [14.2361, '14.2 V'],
    [5.0796, '5.08 V'],
    [9.9996, '10.0 V'],
    [0.7134, '0.713 V'],
    [0.0312, '31 mV'],
    [0.0001, '0 V'],
    [-11.94, '-11.9 V'],
    [Number.NaN, '–'],
  ])('a terminal at %d V reads %s', (v, text) => expect(plain(volts(v))).toBe(text));

  it.each([
    [0.03817, '0.038 V'],
    [0.2549, '0.25 V'],
    [1.04, '1.0 V'],
    [0.00412, '4.1 mV'],
    [0.00001, '0 V'],
  ])('a drop of %d V reads %s: at most two figures', (v, text) => expect(plain(drop(v))).toBe(text));

  it.each([
    [1.1549, '1.15 A'],
    [0.8456, '0.85 A'],
    [0.996, '0.996 A'],
    [0.0025, '2.5 mA'],
    [0.0000042, '4.2 µA'],
    [0, '0 A'],
    [Number.POSITIVE_INFINITY, 'no limit'],
  ])('%d A reads %s', (a, text) => expect(plain(amps(a))).toBe(text));

  it('gives watts two figures, three from ten on', () => {
    expect(plain(watts(0.0441))).toBe('44 mW');
    expect(plain(watts(4.456))).toBe('4.5 W');
    expect(plain(watts(13.27))).toBe('13.3 W');
  });

  it('gives watts for each metre or foot', () => {
    expect(plain(wattsPerLength(0.5, metric))).toBe('0.50 W/m');
    // 0.3048 m to the foot: definition of the international foot.
    expect(plain(wattsPerLength(1, imperial))).toBe('0.30 W/ft');
  });

  it('gives shares two figures and never a bare nought for a little', () => {
    expect(plain(share(0.00316))).toBe('0.32 %');
    expect(plain(share(0.16))).toBe('16 %');
    expect(plain(share(1.284))).toBe('128 %');
    expect(plain(share(0.0001))).toBe('under 0.1 %');
    expect(plain(share(0))).toBe('0 %');
  });

  it('counts days down to whole ones, so that nobody is promised a day too many', () => {
    expect(plain(days(40.9))).toBe('40 days');
    expect(plain(days(1))).toBe('1 day');
    expect(plain(days(2.34))).toBe('2.3 days');
    expect(plain(days(Number.POSITIVE_INFINITY))).toBe('no end');
  });

  it('shows lengths and sizes in the unit that was chosen', () => {
    expect(plain(length(2.22, metric))).toBe('2.22 m');
    // 0.9144 m = 3 ft: definition of the yard.
    expect(plain(length(0.9144, imperial))).toBe('3 ft');
    expect(plain(area(1.5, 'AWG 16', metric))).toBe('1.5 mm² (AWG 16)');
    expect(plain(area(1.5, 'AWG 16', imperial))).toBe('AWG 16 (1.5 mm²)');
  });

  it('shows settings with the prefix the trade writes', () => {
    expect(plain(amount(2200, 'Ω'))).toBe('2.2 kΩ');
    expect(plain(amount(470e-6, 'F'))).toBe('470 µF');
    expect(plain(amount(0.05, '%'))).toBe('5 %');
  });

  it('counts in words', () => {
    expect(count(1, 'fault')).toBe('1 fault');
    expect(count(3, 'fault')).toBe('3 faults');
  });
});
