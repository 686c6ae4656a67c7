/**
 * The bench: builds test/bench/*.bench.ts as the product is built, runs each, prints its rows; then the page itself
 * (test/bench/frames) in a Chromium, where there is one. Ends with 1 only when a row is at twice its aim (a ratio: at
 * half), so that a busy machine does not fail it.
 *
 *   node test/bench/run.mjs [NAME ...]   only bench files whose name has one of the words; `frames` is the page
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { build } from 'vite';
import { findBrowser } from '../browser.mjs';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const OUT = join(ROOT, 'build', 'bench');
const wanted = process.argv.slice(2);
const files = readdirSync(join(ROOT, 'test', 'bench'))
  .filter((name) => name.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((word) => name.includes(word))))
  .sort();
const withPage = wanted.length === 0 || wanted.some((word) => 'frames'.includes(word));
if (files.length === 0 && !withPage) {
  console.error('No bench file of that name in test/bench.');
  process.exit(2);
}

mkdirSync(OUT, { recursive: true });
if (files.length > 0)
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

// So that a row about memory does not begin with the garbage of those before it.
setFlagsFromString('--expose-gc');
globalThis.gc = runInNewContext('gc');
const cores = availableParallelism();
print(['row', 'median', 'p95', 'cold', 'cores', 'aim', '']);
let behind = 0;
for (const name of files) {
  const bench = await import(pathToFileURL(join(OUT, name.replace(/\.ts$/, '.mjs'))).href);
  for (const row of await bench.run()) show(row);
}
if (withPage) for (const row of pageRows()) show(row);
process.exitCode = behind > 0 ? 1 : 0;

function show(row) {
  const value = row.by === 'p95' ? row.p95 : row.median;
  const aimed = row.aim !== null;
  const late = row.want === 'at most' ? value > row.aim : value < row.aim;
  const failed = row.want === 'at most' ? value > 2 * row.aim : value < row.aim / 2;
  if (aimed && failed) behind++;
  const aim = !aimed ? '' : `${row.by === 'p95' ? 'p95 ' : ''}${row.want === 'at most' ? '<=' : '>='} ${Number(row.aim.toFixed(1))} ${row.unit}`;
  print([row.name, figure(row.median), figure(row.p95), figure(row.cold), cores, aim, !aimed ? 'to compare' : failed ? 'FAILED' : late ? 'behind' : '']);
}

/** Measures the page in a browser; without one it says so and is no failure. */
function pageRows() {
  const browser = findBrowser();
  if (browser.path === null) {
    console.log(`The page was not measured. ${browser.advice}`);
    return [];
  }
  const out = join(OUT, 'frames.json');
  rmSync(out, { force: true });
  const run = spawnSync('npx', ['playwright', 'test', '--config', 'test/bench/frames/playwright.config.ts'], {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, BENCH_ROWS: out },
  });
  if (run.status !== 0) {
    console.log(run.stdout + run.stderr);
    behind++;
  }
  return existsSync(out) ? JSON.parse(readFileSync(out, 'utf8')) : [];
}

function figure(value) {
  return value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2);
}

function print([name, ...cells]) {
  console.log(`${String(name).padEnd(56)}${cells.map((cell, i) => String(cell).padStart(i === 4 ? 15 : 11)).join('')}`.trimEnd());
}
