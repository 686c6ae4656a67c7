/**
 * The bench: builds test/bench/*.bench.ts as the product is built, runs each, prints its rows. Ends with 1 only when a
 * row is at twice its aim (a ratio: at half), so that a busy machine does not fail it.
 *
 *   node test/bench/run.mjs [NAME ...]   only bench files whose name has one of the words
 */
import { mkdirSync, readdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const OUT = join(ROOT, 'build', 'bench');
const wanted = process.argv.slice(2);
const files = readdirSync(join(ROOT, 'test', 'bench'))
  .filter((name) => name.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((word) => name.includes(word))))
  .sort();
if (files.length === 0) {
  console.error('No bench file of that name in test/bench.');
  process.exit(2);
}

mkdirSync(OUT, { recursive: true });
await build({
  root: ROOT,
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: true,
    target: 'node20',
    outDir: OUT,
    emptyOutDir: true,
    rollupOptions: { input: files.map((name) => join(ROOT, 'test', 'bench', name)), output: { entryFileNames: '[name].mjs' } },
  },
});

const cores = availableParallelism();
print(['row', 'median', 'p95', 'cold', 'cores', 'aim', '']);
let behind = 0;
for (const name of files) {
  const bench = await import(pathToFileURL(join(OUT, name.replace(/\.ts$/, '.mjs'))).href);
  for (const row of await bench.run()) {
    const late = row.want === 'at most' ? row.median > row.aim : row.median < row.aim;
    const failed = row.want === 'at most' ? row.median > 2 * row.aim : row.median < row.aim / 2;
    if (failed) behind++;
    const sign = row.want === 'at most' ? '<=' : '>=';
    print([row.name, figure(row.median), figure(row.p95), figure(row.cold), cores, `${sign} ${row.aim} ${row.unit}`, failed ? 'FAILED' : late ? 'behind' : '']);
  }
}
process.exitCode = behind > 0 ? 1 : 0;

function figure(value) {
  return value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2);
}

function print([name, ...cells]) {
  console.log(`${String(name).padEnd(56)}${cells.map((cell) => String(cell).padStart(11)).join('')}`.trimEnd());
}
