/**
 * Starts the headless commands: `report FILE [--json] [--strict]` and `schema`. The TypeScript sources are built into one
 * file the first time and whenever one of them is newer than it; after that a start takes a fraction of a second.
 */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const BUILT = join(ROOT, 'build', 'report.mjs');
/** Rooms that the report is made of; a change elsewhere does not concern it. */
const SOURCES = ['trade', 'circuit', 'drawing', 'plan', 'parts', 'codec', 'scene', 'analysis', 'rules', 'advise', 'sheet', 'report', 'report.ts'];

if (!existsSync(BUILT) || newest() > statSync(BUILT).mtimeMs) await build();
const [command, ...args] = process.argv.slice(2);
const { report, schema } = await import(pathToFileURL(BUILT).href);
const answer = command === 'schema' ? schema() : report(args);
// A reader that has seen enough (`| head`) closes the pipe: that is no error.
process.stdout.on('error', (error) => {
  if (error.code !== 'EPIPE') throw error;
});
process.stderr.write(answer.err);
process.stdout.write(answer.out);
process.exitCode = answer.code;

function newest() {
  let latest = statSync(join(ROOT, 'package-lock.json')).mtimeMs;
  const look = (path) => {
    const stat = statSync(path);
    latest = Math.max(latest, stat.mtimeMs);
    if (stat.isDirectory()) for (const name of readdirSync(path)) look(join(path, name));
  };
  for (const name of SOURCES) look(join(ROOT, 'src', name));
  return latest;
}

/** Built beside its place and then moved there, so that two starts at once do not read half a file. */
async function build() {
  const { build: bundle } = await import('vite');
  const aside = join(ROOT, 'build', `report-${process.pid}`);
  mkdirSync(aside, { recursive: true });
  await bundle({
    root: ROOT,
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      ssr: join(ROOT, 'src', 'report.ts'),
      target: 'node20',
      outDir: aside,
      emptyOutDir: true,
      rollupOptions: { output: { entryFileNames: 'report.mjs', codeSplitting: false } },
    },
  });
  renameSync(join(aside, 'report.mjs'), BUILT);
  rmSync(aside, { recursive: true });
}
