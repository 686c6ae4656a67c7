import { describe, expect, it } from 'vitest';
import { listed } from '../../src/plan/listed.ts';
import { ampsApart, plainApart, voltsApart } from '../../src/rules/defineRule.ts';

describe('two figures that a sentence compares', () => {
  it('are said shortly where they differ, and longer where they would look alike', () => {
    expect(ampsApart(2.125, 1.35)).toEqual(['2.1 A', '1.4 A']);
    expect(ampsApart(1.37, 1.354)).toEqual(['1.37 A', '1.35 A']);
    expect(ampsApart(0.0253, 0.025)).toEqual(['25.3 mA', '25 mA']);
    expect(ampsApart(12.04, 12)).toEqual(['12.04 A', '12 A']);
    expect(voltsApart(4.7481, 4.75)).toEqual(['4.748 V', '4.75 V']);
    expect(voltsApart(4.62, 4.75)).toEqual(['4.62 V', '4.75 V']);
  });

  it('even where one of them is endless, or both are one', () => {
    expect(ampsApart(Number.POSITIVE_INFINITY, 5)).toEqual(['unlimited', '5.0 A']);
    expect(ampsApart(3, 3)).toEqual(['3.0 A', '3.0 A']);
  });

  it('with the unit in the sentence', () => {
    expect(plainApart(2, 1)).toEqual(['2', '1']);
    expect(plainApart(5.004, 5)).toEqual(['5.004', '5']);
  });
});

describe('a list in a sentence', () => {
  it('ends with “and”, and counts what it leaves out', () => {
    expect(listed([])).toBe('');
    expect(listed(['A'])).toBe('A');
    expect(listed(['A', 'B'])).toBe('A and B');
    expect(listed(['A', 'B', 'C'], 3)).toBe('A, B and C');
    expect(listed(['A', 'B', 'C', 'D', 'E'], 3)).toBe('A, B, C and 2 more');
  });
});
