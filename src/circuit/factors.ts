import type { Order, Pattern } from './order.ts';

/** Column order and static pattern of one matrix structure. */
export interface Symbolic {
  readonly pattern: Pattern;
  readonly order: Order;
}

/** Factors of one matrix: row rowPerm[k], column colPerm[k] of A is row k, column k of L U. L has a unit diagonal (not stored). */
export interface Factors {
  readonly n: number;
  readonly symbolic: Symbolic;
  readonly rowPerm: Int32Array;
  readonly colPerm: Int32Array;
  readonly lowPtr: Int32Array;
  readonly lowRow: Int32Array;
  readonly lowX: Float64Array;
  /** U above the diagonal by columns, each column in an order in which it can be eliminated. */
  readonly upPtr: Int32Array;
  readonly upRow: Int32Array;
  readonly upX: Float64Array;
  /** 1 / pivot. */
  readonly inverse: Float64Array;
  /** The matrix by permuted columns: permuted row and place in the value array. */
  readonly inPtr: Int32Array;
  readonly inRow: Int32Array;
  readonly inFrom: Int32Array;
  readonly work: Float64Array;
  /** The values of `inFrom` that each column was last worked out for, and whether it had to be worked out in the last pass. */
  readonly inX: Float64Array;
  readonly isNew: Uint8Array;
}

/** A diagonal pivot is taken while it is at least this share of the largest entry left in its column. */
export const PIVOT_SHARE = 1e-3;

/** Gathers the matrix by permuted columns so that the numeric loops need no permutation. */
export function permutedInput(pattern: Pattern, rowPerm: Int32Array, colPerm: Int32Array): Pick<Factors, 'inPtr' | 'inRow' | 'inFrom' | 'inX' | 'isNew'> {
  const { n, colPtr, rowIndex } = pattern;
  const place = new Int32Array(n);
  for (let k = 0; k < n; k++) place[rowPerm[k]!] = k;
  const inPtr = new Int32Array(n + 1);
  const inRow = new Int32Array(rowIndex.length);
  const inFrom = new Int32Array(rowIndex.length);
  let q = 0;
  for (let k = 0; k < n; k++) {
    const c = colPerm[k]!;
    for (let p = colPtr[c]!; p < colPtr[c + 1]!; p++) {
      inRow[q] = place[rowIndex[p]!]!;
      inFrom[q++] = p;
    }
    inPtr[k + 1] = q;
  }
  // No value equals this: at first every column is new.
  return { inPtr, inRow, inFrom, inX: new Float64Array(rowIndex.length).fill(Number.NaN), isNew: new Uint8Array(n) };
}
