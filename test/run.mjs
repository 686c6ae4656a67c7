/**
 * The test command: types, lint and format, unit tests, production build, script budget, browser tests against that
 * build. Every runner runs even when an earlier one failed; the last line sums them all: "N passed, N failed".
 *
 *   node test/run.mjs                    everything
 *   node test/run.mjs --only types,unit  some of: types, lint, unit, build, e2e
 *   --bring-browser                      may install Chromium when there is none (always on a build machine, CI=true)
 *   --grep TEXT                          only browser tests whose title has TEXT
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findBrowser } from './browser.mjs';
import { BUDGET_KB, firstScriptSize } from './budget.mjs';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const OUT = join(ROOT, 'build', 'test');
const options = readOptions(process.argv.slice(2));

const runners = { types, lint, unit, build, e2e };
let passed = 0;
let failed = 0;
mkdirSync(OUT, { recursive: true });
for (const [name, runner] of Object.entries(runners)) {
  if (options.only && !options.only.includes(name)) continue;
  const started = Date.now();
  console.log(`\n== ${name}`);
  const result = runner();
  passed += result.passed;
  failed += result.failed;
  console.log(`== ${name}: ${result.passed} passed, ${result.failed} failed in ${((Date.now() - started) / 1000).toFixed(1)} s`);
}
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;

function types() {
  return asOne(run('tsc', ['--noEmit']));
}

function lint() {
  return asOne(run('biome', ['check']));
}

function unit() {
  const file = join(OUT, 'unit.json');
  rmSync(file, { force: true });
  const ok = run('vitest', ['run', '--passWithNoTests', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`]);
  const report = readJson(file);
  if (!report) return { passed: 0, failed: 1 };
  // A file that does not even load holds no test that could fail: it counts as one failure.
  const unloaded = report.testResults.filter((f) => f.status === 'failed' && f.assertionResults.length === 0).length;
  return withExit(ok, { passed: report.numPassedTests, failed: report.numFailedTests + unloaded });
}

/** Production build, then the size of what a first visit downloads. */
function build() {
  if (!run('vite', ['build', '--logLevel', 'warn'])) return { passed: 0, failed: 1 };
  const { kB, files } = firstScriptSize(join(ROOT, 'dist'));
  console.log(`First script download: ${kB.toFixed(1)} kB gzip of ${BUDGET_KB} kB (${files.length} files)`);
  return kB <= BUDGET_KB ? { passed: 2, failed: 0 } : { passed: 1, failed: 1 };
}

function e2e() {
  if (!existsSync(join(ROOT, 'dist', 'index.html'))) {
    console.log('There is no production build to test: npm run build');
    return { passed: 0, failed: 1 };
  }
  const browser = findBrowser(options.bring);
  if (browser.path === null) {
    console.log(browser.advice);
    return { passed: 0, failed: 1 };
  }
  console.log(`Chromium from ${browser.from}`);
  const file = join(OUT, 'e2e.json');
  rmSync(file, { force: true });
  const args = ['test', '--pass-with-no-tests', ...(options.grep ? ['--grep', options.grep] : [])];
  const ok = run('playwright', args, { CHROMIUM_PATH: browser.path, PLAYWRIGHT_JSON_OUTPUT_FILE: file });
  const report = readJson(file);
  if (!report) return { passed: 0, failed: 1 };
  // In CI what was late once may try again; it is named, so that it is not forgotten.
  if (report.stats.flaky > 0) console.log(`${report.stats.flaky} passed at the second try`);
  return withExit(ok, { passed: report.stats.expected + report.stats.flaky, failed: report.stats.unexpected });
}

/** Runs a program of this project's own node_modules, output straight to the screen. */
function run(program, args, env = {}) {
  const done = spawnSync(join(ROOT, 'node_modules', '.bin', program), args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...env },
    shell: process.platform === 'win32',
  });
  if (done.error) console.log(`${program} did not start: ${done.error.message}`);
  return done.status === 0;
}

function asOne(ok) {
  return ok ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/** A runner that ends badly without naming a failed test (a crash, an unhandled error) still fails. */
function withExit(ok, counts) {
  return !ok && counts.failed === 0 ? { ...counts, failed: 1 } : counts;
}

function readJson(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null;
  }
}

function readOptions(args) {
  const found = { only: null, bring: Boolean(process.env.CI), grep: null };
  for (let i = 0; i < args.length; i++) {
    if (args[i] === '--bring-browser') found.bring = true;
    else if (args[i] === '--only' && args[i + 1]) found.only = args[++i].split(',');
    else if (args[i] === '--grep' && args[i + 1]) found.grep = args[++i];
    else stop(`unknown option ${args[i]}; known: --only types,lint,unit,build,e2e  --grep TEXT  --bring-browser`);
  }
  const unknown = found.only?.find((name) => !['types', 'lint', 'unit', 'build', 'e2e'].includes(name));
  if (unknown) stop(`no runner "${unknown}"; there are types, lint, unit, build, e2e`);
  return found;
}

function stop(message) {
  console.error(message);
  process.exit(2);
}
