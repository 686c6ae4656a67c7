/**
 * Sparse LU for small unsymmetric systems with a nearly symmetric pattern (nodal equations). Column order by minimum
 * degree; pivots from the diagonal while they stand the relative threshold, else threshold partial pivoting after
 * Gilbert and Peierls (SIAM J. Sci. Stat. Comput. 9, 1988; from memory). Pattern and pivot order are kept, so a
 * matrix with other values costs only the plain loops of `refactorise`.
 */
import { type Factors, PIVOT_SHARE, permutedInput, type Symbolic } from './factors.ts';
import { minimumDegree, type Pattern } from './order.ts';
import { factorisePivoting } from './pivoting.ts';

export type { Factors, Symbolic } from './factors.ts';
export type { Pattern } from './order.ts';

/** In a re-factorisation the kept pivot may shrink further before the order is chosen anew. */
const KEPT_SHARE = 1e-6;

/** Column order and static pattern; done once a network. */
export function analyse(pattern: Pattern): Symbolic {
  return { pattern, order: minimumDegree(pattern) };
}

/** Empty factors on the static pattern with diagonal pivots: U has the transposed pattern of L. */
function diagonalFactors(symbolic: Symbolic): Factors {
  const { n } = symbolic.pattern;
  const { perm, lowPtr, lowRow } = symbolic.order;
  const upPtr = new Int32Array(n + 1);
  for (let p = 0; p < lowRow.length; p++) upPtr[lowRow[p]! + 1]!++;
  for (let k = 0; k < n; k++) upPtr[k + 1]! += upPtr[k]!;
  const upRow = new Int32Array(lowRow.length);
  const fill = upPtr.slice(0, n);
  for (let k = 0; k < n; k++) for (let p = lowPtr[k]!; p < lowPtr[k + 1]!; p++) upRow[fill[lowRow[p]!]!++] = k;
  return {
    n,
    symbolic,
    rowPerm: perm,
    colPerm: perm,
    lowPtr,
    lowRow,
    lowX: new Float64Array(lowRow.length),
    upPtr,
    upRow,
    upX: new Float64Array(upRow.length),
    inverse: new Float64Array(n),
    ...permutedInput(symbolic.pattern, perm, perm),
    work: new Float64Array(n),
  };
}

/** Factors `values` (in pattern order); null when the matrix is singular. */
export function factorise(symbolic: Symbolic, values: Float64Array): Factors | null {
  const factors = diagonalFactors(symbolic);
  return eliminate(factors, values, PIVOT_SHARE) ? factors : factorisePivoting(symbolic, values);
}

/**
 * New values on the kept pattern and pivot order; false when a pivot became too small: factorise anew.
 * @param only columns outside which nothing has changed since the last time (`columnsOf`)
 */
export function refactorise(factors: Factors, values: Float64Array, only: Int32Array | null = null): boolean {
  return eliminate(factors, values, KEPT_SHARE, only);
}

/** The columns of L and U that can change when only the values at certain places do, in the order of elimination. */
export function columnsOf({ n, upPtr, upRow, inPtr, inFrom }: Factors, places: Iterable<number>): Int32Array {
  const changing = new Set(places);
  const isChanged = new Uint8Array(n);
  const columns: number[] = [];
  for (let k = 0; k < n; k++) {
    let changes = false;
    for (let p = inPtr[k]!; !changes && p < inPtr[k + 1]!; p++) changes = changing.has(inFrom[p]!);
    for (let p = upPtr[k]!; !changes && p < upPtr[k + 1]!; p++) changes = isChanged[upRow[p]!] === 1;
    if (!changes) continue;
    isChanged[k] = 1;
    columns.push(k);
  }
  return Int32Array.from(columns);
}

/** Works out the columns of L and U that are not as they were: those with other values, and those that rest on such. */
function eliminate(f: Factors, values: Float64Array, share: number, only: Int32Array | null = null): boolean {
  const { n, lowPtr, lowRow, lowX, upPtr, upRow, upX, inverse, inPtr, inRow, inFrom, inX, isNew, work } = f;
  const count = only ? only.length : n;
  if (only) isNew.fill(0);
  for (let i = 0; i < count; i++) {
    const k = only ? only[i]! : i;
    let differs = 0;
    for (let p = inPtr[k]!, end = inPtr[k + 1]!; p < end; p++) {
      const value = values[inFrom[p]!]!;
      if (value === inX[p]!) continue;
      inX[p] = value;
      differs = 1;
    }
    if (differs === 0) for (let p = upPtr[k]!, end = upPtr[k + 1]!; p < end; p++) differs |= isNew[upRow[p]!]!;
    isNew[k] = differs;
    if (differs === 0) continue;
    for (let p = inPtr[k]!, end = inPtr[k + 1]!; p < end; p++) work[inRow[p]!] = inX[p]!;
    for (let p = upPtr[k]!, end = upPtr[k + 1]!; p < end; p++) {
      const j = upRow[p]!;
      const u = work[j]!;
      work[j] = 0;
      upX[p] = u;
      if (u === 0) continue;
      for (let r = lowPtr[j]!, last = lowPtr[j + 1]!; r < last; r++) work[lowRow[r]!]! -= lowX[r]! * u;
    }
    const pivot = work[k]!;
    work[k] = 0;
    const inv = 1 / pivot;
    inverse[k] = inv;
    let largest = 0;
    for (let r = lowPtr[k]!, last = lowPtr[k + 1]!; r < last; r++) {
      const row = lowRow[r]!;
      const x = work[row]!;
      work[row] = 0;
      lowX[r] = x * inv;
      const size = x < 0 ? -x : x;
      if (size > largest) largest = size;
    }
    // Also false for a pivot that is not a number.
    if (!(Math.abs(pivot) > 0 && Math.abs(pivot) >= share * largest)) return false;
  }
  return true;
}

/** Solves A x = b; `x` may be `b`. */
export function solve(f: Factors, b: Float64Array, x: Float64Array): void {
  const { n, rowPerm, colPerm, lowPtr, lowRow, lowX, upPtr, upRow, upX, inverse, work } = f;
  for (let k = 0; k < n; k++) work[k] = b[rowPerm[k]!]!;
  for (let k = 0; k < n; k++) {
    const y = work[k]!;
    if (y !== 0) for (let r = lowPtr[k]!, end = lowPtr[k + 1]!; r < end; r++) work[lowRow[r]!]! -= lowX[r]! * y;
  }
  for (let k = n - 1; k >= 0; k--) {
    const y = work[k]! * inverse[k]!;
    work[k] = 0;
    x[colPerm[k]!] = y;
    if (y !== 0) for (let p = upPtr[k]!, end = upPtr[k + 1]!; p < end; p++) work[upRow[p]!]! -= upX[p]! * y;
  }
}
