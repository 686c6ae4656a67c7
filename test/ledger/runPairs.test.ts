import { describe, expect, it } from 'vitest';
import { pairsOf } from '../../src/ledger/runPairs.ts';

const run = (id: string, a: string, b: string) => ({ id, a, b, lengthM: 1 });
const names = (pairs: readonly { a: string; b: string; run?: unknown }[]) => pairs.map((p) => `${p.a}-${p.b}${p.run ? ' measured' : ''}`);

describe('the table of runs', () => {
  it('has neighbours always, others when measured or asked for, and never a pair twice', () => {
    const found = pairsOf(['a', 'b', 'c', 'd'], [run('r1', 'b', 'a'), run('r2', 'd', 'a')], ['b d']);
    expect(names(found.rows)).toEqual(['a-b measured', 'a-d measured', 'b-c', 'b-d', 'c-d']);
    expect(names(found.more)).toEqual(['a-c']);
  });
});
