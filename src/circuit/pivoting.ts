import { type Factors, PIVOT_SHARE, permutedInput, type Symbolic } from './factors.ts';

/** Typed arrays that grow while the pattern of the factors is still unknown. */
class Triangle {
  rows: Int32Array;
  values: Float64Array;
  length = 0;
  readonly ptr: Int32Array;

  constructor(n: number, guess: number) {
    this.rows = new Int32Array(guess);
    this.values = new Float64Array(guess);
    this.ptr = new Int32Array(n + 1);
  }

  push(row: number, value: number): void {
    if (this.length === this.rows.length) {
      const rows = new Int32Array(2 * this.length + 16);
      const values = new Float64Array(2 * this.length + 16);
      rows.set(this.rows);
      values.set(this.values);
      this.rows = rows;
      this.values = values;
    }
    this.rows[this.length] = row;
    this.values[this.length++] = value;
  }
}

/**
 * Left-looking LU with threshold partial pivoting (Gilbert and Peierls): each column's pattern is the set of rows
 * reached from it through the columns already done. Used when a diagonal pivot is too small. Null when singular.
 */
export function factorisePivoting(symbolic: Symbolic, values: Float64Array): Factors | null {
  const { pattern, order } = symbolic;
  const { n, colPtr, rowIndex } = pattern;
  const colPerm = order.perm;
  const guess = 2 * order.lowRow.length + n;
  const low = new Triangle(n, guess);
  const up = new Triangle(n, guess);
  const inverse = new Float64Array(n);
  const rowPerm = new Int32Array(n).fill(-1);
  // Pivot step of each row, -1 while it has none.
  const stepOf = new Int32Array(n).fill(-1);
  const work = new Float64Array(n);
  const seen = new Int32Array(n).fill(-1);
  const reach = new Int32Array(n);
  const stack = new Int32Array(n);
  const cursor = new Int32Array(n);

  for (let k = 0; k < n; k++) {
    const c = colPerm[k]!;
    let top = n;
    for (let p = colPtr[c]!; p < colPtr[c + 1]!; p++) {
      if (seen[rowIndex[p]!] !== k) top = depthFirst(rowIndex[p]!, k, top);
    }
    for (let p = colPtr[c]!; p < colPtr[c + 1]!; p++) work[rowIndex[p]!] = values[p]!;
    // Rows with a pivot, in topological order, belong to U; the rest compete for the pivot.
    let largest = 0;
    let best = -1;
    for (let t = top; t < n; t++) {
      const row = reach[t]!;
      const j = stepOf[row]!;
      const x = work[row]!;
      if (j < 0) {
        const size = Math.abs(x);
        if (size > largest) {
          largest = size;
          best = row;
        }
        continue;
      }
      up.push(j, x);
      for (let r = low.ptr[j]!; r < low.ptr[j + 1]!; r++) work[low.rows[r]!]! -= low.values[r]! * x;
    }
    if (best < 0 || !Number.isFinite(largest)) return null;
    if (stepOf[c]! < 0 && seen[c] === k && Math.abs(work[c]!) >= PIVOT_SHARE * largest) best = c;
    const inv = 1 / work[best]!;
    inverse[k] = inv;
    rowPerm[k] = best;
    stepOf[best] = k;
    for (let t = top; t < n; t++) {
      const row = reach[t]!;
      if (stepOf[row]! < 0) low.push(row, work[row]! * inv);
      work[row] = 0;
    }
    low.ptr[k + 1] = low.length;
    up.ptr[k + 1] = up.length;
  }
  const lowRow = low.rows.slice(0, low.length);
  for (let p = 0; p < lowRow.length; p++) lowRow[p] = stepOf[lowRow[p]!]!;
  return {
    n,
    symbolic,
    rowPerm,
    colPerm,
    lowPtr: low.ptr,
    lowRow,
    lowX: low.values.slice(0, low.length),
    upPtr: up.ptr,
    upRow: up.rows.slice(0, up.length),
    upX: up.values.slice(0, up.length),
    inverse,
    ...permutedInput(pattern, rowPerm, colPerm),
    work,
  };

  /** Rows reached from `root` through finished columns, put in front of `top` so that each comes before those it changes. */
  function depthFirst(root: number, mark: number, from: number): number {
    let top = from;
    let depth = 0;
    stack[0] = root;
    seen[root] = mark;
    cursor[0] = startOf(root);
    while (depth >= 0) {
      const row = stack[depth]!;
      const j = stepOf[row]!;
      const end = j < 0 ? 0 : low.ptr[j + 1]!;
      let descended = false;
      while (cursor[depth]! < end) {
        const child = low.rows[cursor[depth]!++]!;
        if (seen[child] === mark) continue;
        seen[child] = mark;
        depth++;
        stack[depth] = child;
        cursor[depth] = startOf(child);
        descended = true;
        break;
      }
      if (descended) continue;
      reach[--top] = row;
      depth--;
    }
    return top;
  }

  function startOf(row: number): number {
    const j = stepOf[row]!;
    return j < 0 ? 0 : low.ptr[j]!;
  }
}
