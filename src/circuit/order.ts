/**
 * Fill-reducing order and static factor pattern by minimum degree on the elimination graph. The graph is kept as
 * one bit row per unknown: plans have a few hundred nodes, where word-wide unions beat linked lists.
 * Method: Tinney and Walker, Proc. IEEE 55 (1967), "scheme 2" (from memory).
 */

/** Compressed sparse column pattern of a square matrix: rows of column c are `rowIndex[colPtr[c] .. colPtr[c + 1]]`, each at most once. */
export interface Pattern {
  readonly n: number;
  readonly colPtr: Int32Array;
  readonly rowIndex: Int32Array;
}

export interface Order {
  /** `perm[k]` = unknown eliminated at step k. */
  readonly perm: Int32Array;
  /** Below-diagonal rows (as steps) of each column of L when every pivot is diagonal. */
  readonly lowPtr: Int32Array;
  readonly lowRow: Int32Array;
}

const popCount = (word: number): number => {
  let v = word - ((word >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
};

/** Adjacency of A + Aᵀ without the diagonal, as bit rows of `words` words, and each degree. */
function adjacency(pattern: Pattern, words: number, degree: Int32Array): Int32Array {
  const { n, colPtr, rowIndex } = pattern;
  const bits = new Int32Array(n * words);
  for (let c = 0; c < n; c++) {
    const bitC = 1 << (c & 31);
    for (let p = colPtr[c]!, end = colPtr[c + 1]!; p < end; p++) {
      const r = rowIndex[p]!;
      const at = r * words + (c >>> 5);
      if (r === c || (bits[at]! & bitC) !== 0) continue;
      bits[at]! |= bitC;
      bits[c * words + (r >>> 5)]! |= 1 << (r & 31);
      degree[r]!++;
      degree[c]!++;
    }
  }
  return bits;
}

/** Orders the unknowns of a symmetric (or symmetrised) pattern and gives the pattern of L for diagonal pivots. */
export function minimumDegree(pattern: Pattern): Order {
  const { n } = pattern;
  const words = Math.max(1, (n + 31) >>> 5);
  const degree = new Int32Array(n);
  const bits = adjacency(pattern, words, degree);
  // Buckets of equal degree as doubly linked lists; head[d] = -1 when empty.
  const head = new Int32Array(n + 1).fill(-1);
  const next = new Int32Array(n).fill(-1);
  const prev = new Int32Array(n).fill(-1);
  const put = (v: number): void => {
    const h = head[degree[v]!]!;
    next[v] = h;
    prev[v] = -1;
    if (h >= 0) prev[h] = v;
    head[degree[v]!] = v;
  };
  const take = (v: number): void => {
    const a = prev[v]!;
    const b = next[v]!;
    if (a >= 0) next[a] = b;
    else head[degree[v]!] = b;
    if (b >= 0) prev[b] = a;
  };
  for (let v = n - 1; v >= 0; v--) put(v);

  const full = new Int32Array(words);
  const perm = new Int32Array(n);
  const step = new Int32Array(n);
  const lowPtr = new Int32Array(n + 1);
  let low = new Int32Array(Math.max(16, 4 * pattern.rowIndex.length));
  let fill = 0;
  let least = 0;
  for (let k = 0; k < n; k++) {
    while (head[least]! < 0) least++;
    const v = head[least]!;
    take(v);
    perm[k] = v;
    step[v] = k;
    if (fill + n > low.length) {
      const bigger = new Int32Array(2 * low.length + n);
      bigger.set(low);
      low = bigger;
    }
    const start = fill;
    const row = v * words;
    let used = 0;
    for (let w = 0; w < words; w++) {
      let word = bits[row + w]!;
      if (word !== 0) full[used++] = w;
      while (word !== 0) {
        const bit = word & -word;
        low[fill++] = (w << 5) + 31 - Math.clz32(bit);
        word ^= bit;
      }
    }
    // The neighbours become a clique; v leaves the graph.
    const isLeaf = fill - start === 1;
    for (let p = start; p < fill; p++) {
      const u = low[p]!;
      const at = u * words;
      take(u);
      let d = degree[u]! - 1;
      if (!isLeaf) {
        for (let i = 0; i < used; i++) {
          const w = full[i]!;
          const added = bits[row + w]! & ~bits[at + w]!;
          if (added === 0) continue;
          bits[at + w]! |= added;
          d += popCount(added);
        }
        // Among the added was u itself.
        bits[at + (u >>> 5)]! &= ~(1 << (u & 31));
        d--;
      }
      bits[at + (v >>> 5)]! &= ~(1 << (v & 31));
      degree[u] = d;
      put(u);
      if (d < least) least = d;
    }
    lowPtr[k + 1] = fill;
  }
  const lowRow = low.slice(0, fill);
  for (let p = 0; p < fill; p++) lowRow[p] = step[lowRow[p]!]!;
  return { perm, lowPtr, lowRow };
}
