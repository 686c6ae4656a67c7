import { describe, expect, it } from 'vitest';
import { fusedLine } from '../../src/rules/keyLine.ts';
import { compute, factsOf } from './harness.ts';
import { bench } from './plans.ts';

describe('where a wire that watches the key is joined', () => {
  const lineOf = (b: ReturnType<typeof bench>) => {
    const facts = factsOf(compute(b));
    return fusedLine(facts, facts.ofKind('feed-15')[0]!);
  };

  it('behind the fuse, where no switch stands', () => {
    const b = bench();
    expect(lineOf(b)).toEqual({ part: b.id('senseFuse'), terminal: '2' });
  });

  it('behind the master switch, so that switching off is heard, whichever way round it stands', () => {
    for (const ends of [
      ['1', '2'],
      ['2', '1'],
    ] as const) {
      const b = bench().into('trigger', 'switch', 'master-switch', [...ends], { contact: 'gold' });
      expect(lineOf(b)).toEqual({ part: b.id('switch'), terminal: ends[1] });
    }
  });
});
