import { describe, expect, it } from 'vitest';
import { COLOUR_ORDER, COLOURS } from '../../src/trade/colours.ts';
import { LINES } from '../../src/trade/lines.ts';
import { nearestPreferred, resistorWattsAt, SERIES, type Series } from '../../src/trade/preferred.ts';

// IEC 60063, one decade (from memory), written as the standard prints it.
const PUBLISHED: readonly (readonly [Series, string])[] = [
  ['E6', '1.0 1.5 2.2 3.3 4.7 6.8'],
  ['E12', '1.0 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2'],
  ['E24', '1.0 1.1 1.2 1.3 1.5 1.6 1.8 2.0 2.2 2.4 2.7 3.0 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1'],
];

describe('IEC 60063 preferred values', () => {
  it.each(PUBLISHED)('%s', (series, text) => {
    expect(SERIES[series]).toEqual(text.split(' ').map(Number));
  });

  it('each series contains the one before', () => {
    expect(SERIES.E6.every((v) => SERIES.E12.includes(v))).toBe(true);
    expect(SERIES.E12.every((v) => SERIES.E24.includes(v))).toBe(true);
  });

  it('E24 steps keep near the ratio of the standard, the 24th root of ten, within 7 % (calculated)', () => {
    const values = [...SERIES.E24, 10];
    for (let i = 1; i < values.length; i++) expect(Math.abs(values[i]! / values[i - 1]! / 10 ** (1 / 24) - 1)).toBeLessThan(0.07);
  });

  it.each([
    [613, 'E24', 'up', 620],
    [365, 'E12', 'up', 390],
    [515, 'E12', 'up', 560],
    [2100, 'E6', 'down', 1500],
    [9.5, 'E12', 'up', 10],
    [4.7e-6, 'E6', 'nearest', 4.7e-6],
  ] as const)('%s in %s %s is %s', (value, series, way, expected) => {
    expect(nearestPreferred(value, series, way)).toBe(expected);
  });
});

describe('resistor power', () => {
  it('full at 70 °C (resistor maker’s figure, read), nothing at 155 °C (from memory), 0.206 W of 0.25 W at 85 °C (calculated)', () => {
    expect(resistorWattsAt(0.25, 70)).toBe(0.25);
    expect(resistorWattsAt(0.25, 155)).toBe(0);
    expect(resistorWattsAt(0.25, 85)).toBeCloseTo(0.2059, 4);
  });
});

describe('IEC 60757 letters (from memory)', () => {
  it.each([
    ['BK', 'black'],
    ['BN', 'brown'],
    ['RD', 'red'],
    ['OG', 'orange'],
    ['YE', 'yellow'],
    ['GN', 'green'],
    ['BU', 'blue'],
    ['VT', 'violet'],
    ['GY', 'grey'],
    ['WH', 'white'],
    ['PK', 'pink'],
    ['TQ', 'turquoise'],
  ] as const)('%s is %s', (letters, name) => {
    expect(COLOURS[letters].name).toBe(name);
  });

  it('starts with the order of IEC 60062 digits, black to white (from memory)', () => {
    expect(COLOUR_ORDER.slice(0, 10)).toEqual(['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH']);
  });
});

describe('DIN 72552 numbers', () => {
  it.each([
    ['30', 'Permanent', 'read'],
    ['15', 'Ignition', 'read'],
    ['31', 'Ground', 'read'],
    ['50', 'Start', 'read'],
    ['58', 'Side lamps', 'from memory'],
    ['75', 'Accessory', 'from memory'],
  ] as const)('%s: %s (%s)', (line, title, basis) => {
    expect(LINES[line]).toMatchObject({ terminal: line, title, basis });
  });
});
