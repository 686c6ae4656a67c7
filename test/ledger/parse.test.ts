import { describe, expect, it } from 'vitest';
import { parseArea, parseCelsius, parseLength, parseNumber } from '../../src/ledger/parse.ts';

const value = <T>(p: { ok: true; value: T } | { ok: false; reason: string }) => (p.ok ? p.value : p.reason);

describe('what people type', () => {
  it.each([
    ['2k2', 'Ω', 2200],
    ['0,5', 'A', 0.5],
    ['4.7 k', 'Ω', 4700],
    ['4,7 uF', 'F', 4.7e-6],
    ['½', 'A', 0.5],
    ['1 1/2 A', 'A', 1.5],
  ])('reads %s %s as %d', (text, unit, expected) => expect(value(parseNumber(text, unit, 0, 1e9))).toBeCloseTo(expected, 9));

  // IEC 60228 and ASTM B258 (from memory): AWG 18 is 0.823 mm², AWG 16 is 1.31 mm².
  it.each([
    ['18 AWG', 0.823],
    ['awg16', 1.309],
    ['1,5', 1.5],
    ['2.5 mm²', 2.5],
    ['0.75mm2', 0.75],
    ['1½ sq', 1.5],
    ['#18 ga', 0.823],
  ])('reads a size of %s as %d mm²', (text, expected) => expect(value(parseArea(text))).toBeCloseTo(expected, 2));

  // 1 ft = 0.3048 m, 1 in = 0.0254 m: definitions.
  it.each([
    ['3 ft', 'm', 0.914],
    ['80 cm', 'm', 0.8],
    ['2,2', 'm', 2.2],
    ['3', 'ft', 0.914],
    ['40"', 'm', 1.016],
    ['3 ft 6 in', 'm', 1.067],
    ['3\' 6"', 'm', 1.067],
    ['3 ft 6', 'm', 1.067],
    ['2½', 'm', 2.5],
    ['1/2 m', 'ft', 0.5],
  ] as const)('reads a length of %s (in %s) as %d m', (text, unit, expected) => expect(value(parseLength(text, unit))).toBeCloseTo(expected, 3));

  it('says what is wrong and what is expected', () => {
    expect(parseNumber('many', 'A', 1, 30)).toEqual({ ok: false, reason: expect.stringMatching(/"many" is not a figure in A.*between 1.A and 30.A/) });
    expect(parseNumber('90', 'A', 1, 30)).toEqual({ ok: false, reason: expect.stringMatching(/outside.*between 1.A and 30.A/) });
    expect(parseArea('thick')).toEqual({ ok: false, reason: expect.stringContaining('AWG 16') });
    expect(parseArea('900')).toMatchObject({ ok: false });
    expect(parseLength('-2', 'm')).toMatchObject({ ok: false });
    expect(parseLength('0', 'm')).toMatchObject({ ok: false });
    expect(parseLength('3 ft six', 'm')).toMatchObject({ ok: false });
    expect(parseNumber('1/0', 'A', 0, 30)).toMatchObject({ ok: false });
    expect(parseCelsius('hot', -20, 150)).toEqual({ ok: false, reason: expect.stringMatching(/not a temperature.*between -20 and 150/) });
    expect(parseCelsius('200', -20, 150)).toEqual({ ok: false, reason: expect.stringMatching(/200 °C is outside/) });
  });

  // 0 °C = 32 °F, 100 °C = 212 °F: definition.
  it.each([
    ['85', 85],
    ['85 °C', 85],
    ['-10', -10],
    ['212 F', 100],
  ])('reads a temperature of %s as %d °C', (text, expected) => expect(value(parseCelsius(text, -20, 150))).toBe(expected));
});
