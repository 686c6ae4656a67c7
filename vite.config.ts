import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** Writes into the worker `offline.js` what this build consists of: page, scripts, styles, icon and example plans. */
function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    writeBundle({ dir = 'dist' }, bundle) {
      const built = Object.keys(bundle).filter((name) => name.startsWith('assets/'));
      const plans = readdirSync(join(dir, 'plans')).map((name) => `plans/${name}`);
      const files = ['index.html', 'icon.svg', 'manifest.webmanifest', ...plans, ...built].sort();
      const hash = createHash('sha256');
      for (const name of files) hash.update(name).update(readFileSync(join(dir, name)));
      const build = { number: hash.digest('hex').slice(0, 12), files: files.map((name) => (name === 'index.html' ? './' : name)) };
      const worker = readFileSync(join('public', 'offline.js'), 'utf8');
      writeFileSync(join(dir, 'offline.js'), worker.replace(/^const BUILD = .*$/m, `const BUILD = ${JSON.stringify(build)};`));
    },
  };
}

/** Only for the test runner: a build does not load it. */
const sequence = process.env.VITEST ? { sequencer: (await import('./test/longestFirst.ts')).LongestFirst } : {};

export default defineConfig({
  // Relative addresses: the build works from any folder of any host.
  base: './',
  plugins: [react(), offline()],
  worker: { format: 'es' },
  // The manifest tells the test command what a first visit downloads.
  build: { target: 'es2022', chunkSizeWarningLimit: 900, manifest: true },
  test: {
    include: ['test/**/*.test.ts'],
    isolate: false,
    pool: 'threads',
    // One core is left free without being asked: on two that is half of them.
    maxWorkers: availableParallelism(),
    setupFiles: ['test/setup.ts'],
    sequence,
    testTimeout: 120_000,
  },
});
