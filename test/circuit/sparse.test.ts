import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { Responses, response } from '../../src/circuit/response.ts';
import { analyse, columnsOf, factorise, type Pattern, refactorise, solve } from '../../src/circuit/sparse.ts';
import { runs } from '../runs.ts';

const math = create(all!, {});

interface Entries {
  readonly n: number;
  readonly list: readonly { readonly r: number; readonly c: number; readonly v: number }[];
}

/** Random square matrices: sparse, unsymmetric in values and pattern, with a diagonal that is often missing. */
const matrices: fc.Arbitrary<Entries> = fc.integer({ min: 1, max: 25 }).chain((n) => {
  const index = fc.integer({ min: 0, max: n - 1 });
  const value = fc.double({ min: -10, max: 10, noNaN: true }).filter((v) => Math.abs(v) > 1e-2);
  return fc.array(fc.record({ r: index, c: index, v: value }), { minLength: n, maxLength: 5 * n }).map((extra) => {
    // A full cycle off the diagonal keeps most of them regular without a diagonal entry.
    const cycle = Array.from({ length: n }, (_, k) => ({ r: k, c: (k + 1) % n, v: 3 + (k % 4) }));
    return { n, list: [...cycle, ...extra] };
  });
});

function compressed({ n, list }: Entries): { pattern: Pattern; values: Float64Array; dense: number[][] } {
  const dense = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (const { r, c, v } of list) dense[r]![c]! += v;
  const colPtr = new Int32Array(n + 1);
  const rows: number[] = [];
  const values: number[] = [];
  for (let c = 0; c < n; c++) {
    for (let r = 0; r < n; r++) {
      if (dense[r]![c] === 0) continue;
      rows.push(r);
      values.push(dense[r]![c]!);
    }
    colPtr[c + 1] = rows.length;
  }
  return { pattern: { n, colPtr, rowIndex: Int32Array.from(rows) }, values: Float64Array.from(values), dense };
}

const rightSide = (n: number): Float64Array => Float64Array.from({ length: n }, (_, k) => Math.cos(3 * k) + 2);

/** Largest |A x - b| against the size of what was added up. */
function miss(dense: readonly (readonly number[])[], x: Float64Array, b: Float64Array): number {
  let worst = 0;
  dense.forEach((row, r) => {
    const sum = row.reduce((s, a, c) => s + a * x[c]!, 0);
    const size = row.reduce((s, a, c) => s + Math.abs(a * x[c]!), Math.abs(b[r]!));
    worst = Math.max(worst, Math.abs(sum - b[r]!) / size);
  });
  return worst;
}

describe('the sparse factorisation', () => {
  it('agrees with a dense LU of another library', () => {
    fc.assert(
      fc.property(matrices, (entries) => {
        const { pattern, values, dense } = compressed(entries);
        fc.pre(Math.abs(math.det(dense)) > 1e-3);
        const b = rightSide(pattern.n);
        const expected = (math.lusolve(dense, [...b]) as number[][]).map((row) => row[0]!);
        const x = new Float64Array(pattern.n);
        const factors = factorise(analyse(pattern), values);
        expect(factors).not.toBeNull();
        solve(factors!, b, x);
        const size = Math.max(...expected.map(Math.abs), 1);
        for (const [k, e] of expected.entries()) expect(Math.abs(x[k]! - e)).toBeLessThan(1e-6 * size);
        expect(miss(dense, x, b)).toBeLessThan(1e-9);
      }),
      { numRuns: runs(200) },
    );
  });

  it('gives the volts across one pair of places for a current through another', () => {
    const place = fc.nat({ max: 12 });
    fc.assert(
      fc.property(matrices, fc.tuple(place, place, place, place), (entries, places) => {
        const { pattern, values, dense } = compressed(entries);
        fc.pre(Math.abs(math.det(dense)) > 1e-3);
        // The number of unknowns stands for ground.
        const [p, q, r, s] = places.map((k) => k % (pattern.n + 1)) as [number, number, number, number];
        const b = Array.from({ length: pattern.n }, (_, k) => (k === p ? 1 : 0) - (k === q ? 1 : 0));
        const x = (math.lusolve(dense, b) as number[][]).map((row) => row[0]!);
        const at = new Responses(factorise(analyse(pattern), values)!);
        const size = Math.max(...x.map(Math.abs), 1);
        expect(Math.abs(response(at.current(p, q), at.volts(r, s)) - ((x[r] ?? 0) - (x[s] ?? 0)))).toBeLessThan(1e-6 * size);
      }),
      { numRuns: runs(200) },
    );
  });

  it('takes new values on the kept pattern, or says that it cannot', () => {
    fc.assert(
      fc.property(matrices, fc.infiniteStream(fc.double({ min: 0.5, max: 2, noNaN: true })), (entries, stream) => {
        const { pattern, values } = compressed(entries);
        const factors = factorise(analyse(pattern), values);
        fc.pre(factors !== null);
        const other = values.map((v) => v * stream.next().value!);
        const dense = Array.from({ length: pattern.n }, () => new Array<number>(pattern.n).fill(0));
        for (let c = 0; c < pattern.n; c++) for (let p = pattern.colPtr[c]!; p < pattern.colPtr[c + 1]!; p++) dense[pattern.rowIndex[p]!]![c] = other[p]!;
        fc.pre(Math.abs(math.det(dense)) > 1e-3);
        const b = rightSide(pattern.n);
        const x = new Float64Array(pattern.n);
        const kept = refactorise(factors!, other) ? factors! : factorise(analyse(pattern), other)!;
        solve(kept, b, x);
        expect(miss(dense, x, b)).toBeLessThan(1e-6);
      }),
      { numRuns: runs(200) },
    );
  });

  it('looks only at the columns that values at certain places can change, twice in a row, then at all again', () => {
    fc.assert(
      fc.property(
        matrices,
        fc.array(fc.nat(), { minLength: 1, maxLength: 6 }),
        fc.infiniteStream(fc.double({ min: 0.5, max: 2, noNaN: true })),
        (entries, picks, stream) => {
          const { pattern, values } = compressed(entries);
          const factors = factorise(analyse(pattern), values);
          fc.pre(factors !== null);
          const places = new Set(picks.map((p) => p % values.length));
          const only = columnsOf(factors!, places);
          const now = values.slice();
          const b = rightSide(pattern.n);
          for (const which of [only, only, null]) {
            for (const p of which ? places : now.keys()) now[p] = values[p]! * stream.next().value!;
            const fresh = factorise(analyse(pattern), now);
            fc.pre(fresh !== null && refactorise(factors!, now, which));
            const [x, y] = [new Float64Array(pattern.n), new Float64Array(pattern.n)];
            solve(factors!, b, x);
            refactorise(fresh!, now);
            const dense = Array.from({ length: pattern.n }, () => new Array<number>(pattern.n).fill(0));
            for (let c = 0; c < pattern.n; c++) for (let p = pattern.colPtr[c]!; p < pattern.colPtr[c + 1]!; p++) dense[pattern.rowIndex[p]!]![c] = now[p]!;
            fc.pre(Math.abs(math.det(dense)) > 1e-3);
            expect(miss(dense, x, b)).toBeLessThan(1e-6);
            // Worked out anew in the same order of pivots it is the same to the last digit.
            if (fresh!.rowPerm.join() === factors!.rowPerm.join() && fresh!.colPerm.join() === factors!.colPerm.join()) {
              solve(fresh!, b, y);
              expect([...x]).toEqual([...y]);
            }
          }
        },
      ),
      { numRuns: runs(200) },
    );
  });

  it('pivots off the diagonal when it must: [0 1; 1 0]', () => {
    const pattern: Pattern = { n: 2, colPtr: Int32Array.of(0, 2, 4), rowIndex: Int32Array.of(0, 1, 0, 1) };
    const factors = factorise(analyse(pattern), Float64Array.of(0, 1, 1, 0));
    const x = new Float64Array(2);
    solve(factors!, Float64Array.of(3, 7), x);
    expect([...x]).toEqual([7, 3]);
  });

  it('does not take a pivot that is tiny beside its column', () => {
    // Golub and Van Loan's 2 x 2 example (from memory): without pivoting x1 comes out as 0 instead of 1.
    const pattern: Pattern = { n: 2, colPtr: Int32Array.of(0, 2, 4), rowIndex: Int32Array.of(0, 1, 0, 1) };
    const x = new Float64Array(2);
    solve(factorise(analyse(pattern), Float64Array.of(1e-20, 1, 1, 1))!, Float64Array.of(1, 2), x);
    expect(x[0]).toBeCloseTo(1, 12);
    expect(x[1]).toBeCloseTo(1, 12);
  });

  it('gives the order up when new values make a kept pivot vanish, and says a singular matrix is singular', () => {
    const pattern: Pattern = { n: 2, colPtr: Int32Array.of(0, 2, 4), rowIndex: Int32Array.of(0, 1, 0, 1) };
    const factors = factorise(analyse(pattern), Float64Array.of(2, 1, 1, 2))!;
    expect(refactorise(factors, Float64Array.of(0, 1, 1, 0))).toBe(false);
    expect(refactorise(factors, Float64Array.of(4, 1, 1, 3))).toBe(true);
    expect(factorise(analyse(pattern), Float64Array.of(1, 2, 2, 4))).toBeNull();
    expect(factorise(analyse(pattern), Float64Array.of(Number.NaN, 2, 2, 4))).toBeNull();
  });

  it('adds no entry to a tree: minimum degree eliminates leaves first (Rose 1972, from memory)', () => {
    const n = 60;
    const list = Array.from({ length: n - 1 }, (_, k) => Math.floor((k * 7) % (k + 1))).flatMap((parent, k) => [
      { r: parent, c: k + 1, v: -1 },
      { r: k + 1, c: parent, v: -1 },
    ]);
    const { pattern } = compressed({ n, list: [...list, ...Array.from({ length: n }, (_, k) => ({ r: k, c: k, v: 9 }))] });
    const { order } = analyse(pattern);
    expect(order.lowRow.length).toBe(n - 1);
    expect([...order.perm].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, k) => k));
  });

  it('keeps the fill of a 15 x 15 grid well below that of its natural order', () => {
    const side = 15;
    const at = (r: number, c: number): number => r * side + c;
    const list: { r: number; c: number; v: number }[] = [];
    for (let r = 0; r < side; r++) {
      for (let c = 0; c < side; c++) {
        list.push({ r: at(r, c), c: at(r, c), v: 5 });
        for (const [dr, dc] of [[0, 1] as const, [1, 0] as const]) {
          if (r + dr >= side || c + dc >= side) continue;
          list.push({ r: at(r, c), c: at(r + dr, c + dc), v: -1 }, { r: at(r + dr, c + dc), c: at(r, c), v: -1 });
        }
      }
    }
    // Natural order fills the band: about side entries below each diagonal.
    expect(analyse(compressed({ n: side * side, list }).pattern).order.lowRow.length).toBeLessThan(0.55 * side ** 3);
  });
});
