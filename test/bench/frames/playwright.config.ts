import { defineConfig } from '@playwright/test';
import { findBrowser } from '../../browser.mjs';

const { path } = findBrowser();

/** Builds the page beside this file and runs the measurements in it. */
export default defineConfig({
  testDir: '.',
  testMatch: '*.bench.ts',
  outputDir: '../../../test-results/frames',
  workers: 1,
  reporter: process.env.BENCH_ROWS ? 'line' : 'list',
  use: {
    baseURL: 'http://127.0.0.1:5377/',
    viewport: { width: 1280, height: 800 },
    launchOptions: { args: ['--no-sandbox'], ...(path ? { executablePath: path } : {}) },
  },
  webServer: {
    command: 'npx vite build --config vite.config.ts && npx vite preview --config vite.config.ts',
    cwd: import.meta.dirname,
    url: 'http://127.0.0.1:5377/',
    timeout: 120_000,
  },
});
