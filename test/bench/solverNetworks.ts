import type { Pattern } from '../../src/circuit/sparse.ts';

/** A nodal matrix: our compressed columns, and the same entries as plain rows and columns. */
export interface NodalMatrix {
  readonly name: string;
  readonly pattern: Pattern;
  readonly values: Float64Array;
  readonly dense: readonly (readonly [row: number, column: number, value: number])[];
}

/** Small reproducible generator (mulberry32, public domain), 0..1. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Wires of 1 mohm to 1 ohm between the given pairs, every tenth node loaded to ground. */
function nodal(name: string, n: number, pairs: readonly (readonly [number, number])[], seed: number): NodalMatrix {
  const random = generator(seed);
  const columns: Map<number, number>[] = Array.from({ length: n }, (_, k) => new Map([[k, k % 10 === 0 ? 0.1 + random() : 1e-6]]));
  const add = (r: number, c: number, g: number): void => {
    columns[c]!.set(r, (columns[c]!.get(r) ?? 0) + g);
  };
  for (const [a, b] of pairs) {
    const g = 10 ** (3 * random());
    add(a, a, g);
    add(b, b, g);
    add(a, b, -g);
    add(b, a, -g);
  }
  const colPtr = new Int32Array(n + 1);
  const entries = columns.flatMap((column, c) => [...column].sort((x, y) => x[0] - y[0]).map(([r, v]) => [r, c, v] as const));
  for (const [, c] of entries) colPtr[c + 1]!++;
  for (let c = 0; c < n; c++) colPtr[c + 1]! += colPtr[c]!;
  return {
    name,
    pattern: { n, colPtr, rowIndex: Int32Array.from(entries, ([r]) => r) },
    values: Float64Array.from(entries, ([, , v]) => v),
    dense: entries,
  };
}

/** Three networks of `n` nodes: a tree, the tree with chords for a fifth of its nodes, and a square grid. */
export function benchNetworks(n = 250): NodalMatrix[] {
  const random = generator(5);
  const tree = Array.from({ length: n - 1 }, (_, k) => [Math.floor(random() * (k + 1)), k + 1] as const);
  const chords = Array.from({ length: n / 5 }, () => [Math.floor(random() * n), Math.floor(random() * n)] as const).filter(([a, b]) => a !== b);
  const side = Math.ceil(Math.sqrt(n));
  const grid: [number, number][] = [];
  for (let k = 0; k < n; k++) {
    if ((k + 1) % side !== 0 && k + 1 < n) grid.push([k, k + 1]);
    if (k + side < n) grid.push([k, k + side]);
  }
  return [nodal('tree', n, tree, 11), nodal('tree with 20 % chords', n, [...tree, ...chords], 12), nodal('grid', n, grid, 13)];
}
