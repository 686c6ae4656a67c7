import type { Factors } from './factors.ts';

/** Entries of a sparse column in rising order of their elimination steps. */
export interface Half {
  readonly steps: readonly number[];
  readonly values: readonly number[];
}

/** What the factors do not hold themselves: U by rows, where rows and columns have gone, and which step can come after each. */
interface Crossed {
  readonly rowStep: Int32Array;
  readonly columnStep: Int32Array;
  readonly upPtr: Int32Array;
  readonly upColumn: Int32Array;
  readonly upFrom: Int32Array;
  /** Next step that a half may touch after each: the parent in the elimination tree; with pivots off the diagonal simply the next. */
  readonly next: Int32Array;
}

const crossings = new WeakMap<Factors, Crossed>();

/**
 * Volts of one pair of nodes for an ampere through another, from the factors of a nodal matrix A = L U: the product of
 * two halves, cᵀ A⁻¹ b = (U⁻ᵀ c)ᵀ (L⁻¹ b). Either half touches only the steps between its nodes and the root of the
 * elimination: few in a network of wires, where a whole solution touches them all.
 */
export class Responses {
  private readonly crossed: Crossed;
  private readonly column: Float64Array;

  /** @param factors good until they are written over */
  constructor(private readonly factors: Factors) {
    let crossed = crossings.get(factors);
    if (!crossed) {
      crossed = cross(factors);
      crossings.set(factors, crossed);
    }
    this.crossed = crossed;
    this.column = factors.work;
  }

  /** Steps at which the rows of nodes are eliminated; the node count stays. */
  rowSteps(nodes: Int32Array): Int32Array {
    const { rowStep } = this.crossed;
    return nodes.map((node) => rowStep[node] ?? node);
  }

  /** L⁻¹ of one ampere into node `p` and out of node `q`; the node count is ground. */
  current(p: number, q: number): Half {
    const { lowPtr, lowRow, lowX } = this.factors;
    return this.forward(this.crossed.rowStep, p, q, lowPtr, lowRow, lowX, null, null);
  }

  /** U⁻ᵀ of the volts of node `p` over node `q`. */
  volts(p: number, q: number): Half {
    const { upX, inverse } = this.factors;
    const { columnStep, upPtr, upColumn, upFrom } = this.crossed;
    return this.forward(columnStep, p, q, upPtr, upColumn, upX, upFrom, inverse);
  }

  private forward(
    stepOf: Int32Array,
    p: number,
    q: number,
    ptr: Int32Array,
    row: Int32Array,
    entries: Float64Array,
    from: Int32Array | null,
    scale: Float64Array | null,
  ): Half {
    const { n } = this.factors;
    const { next } = this.crossed;
    const { column } = this;
    const steps: number[] = [];
    const values: number[] = [];
    let i = p < n ? stepOf[p]! : n;
    let j = q < n ? stepOf[q]! : n;
    if (i < n) column[i]! += 1;
    if (j < n) column[j]! -= 1;
    while (i < n || j < n) {
      const k = Math.min(i, j);
      if (i === k) i = next[k]!;
      if (j === k) j = next[k]!;
      const entry = column[k]!;
      if (entry === 0) continue;
      column[k] = 0;
      const value = scale ? entry * scale[k]! : entry;
      steps.push(k);
      values.push(value);
      for (let at = ptr[k]!, end = ptr[k + 1]!; at < end; at++) column[row[at]!]! -= entries[from ? from[at]! : at]! * value;
    }
    return { steps, values };
  }
}

/** Volts across the pair of `volts` for an ampere through the pair of `current`, ohm. */
export function response(current: Half, volts: Half): number {
  let sum = 0;
  let i = 0;
  let j = 0;
  while (i < current.steps.length && j < volts.steps.length) {
    const gap = current.steps[i]! - volts.steps[j]!;
    if (gap === 0) sum += current.values[i++]! * volts.values[j++]!;
    else if (gap < 0) i++;
    else j++;
  }
  return sum;
}

function cross({ n, rowPerm, colPerm, lowPtr, lowRow, upPtr, upRow }: Factors): Crossed {
  const rowStep = new Int32Array(n);
  const columnStep = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    rowStep[rowPerm[k]!] = k;
    columnStep[colPerm[k]!] = k;
  }
  const ptr = new Int32Array(n + 1);
  for (let p = 0; p < upRow.length; p++) ptr[upRow[p]! + 1]!++;
  for (let k = 0; k < n; k++) ptr[k + 1]! += ptr[k]!;
  const fill = ptr.slice(0, n);
  const upColumn = new Int32Array(upRow.length);
  const upFrom = new Int32Array(upRow.length);
  for (let k = 0; k < n; k++) {
    for (let p = upPtr[k]!; p < upPtr[k + 1]!; p++) {
      const at = fill[upRow[p]!]!++;
      upColumn[at] = k;
      upFrom[at] = p;
    }
  }
  const next = new Int32Array(n);
  const isSymmetric = rowPerm === colPerm;
  for (let k = 0; k < n; k++) {
    let least = isSymmetric ? n : k + 1;
    if (isSymmetric) for (let p = lowPtr[k]!; p < lowPtr[k + 1]!; p++) if (lowRow[p]! < least) least = lowRow[p]!;
    next[k] = least;
  }
  return { rowStep, columnStep, upPtr: ptr, upColumn, upFrom, next };
}
