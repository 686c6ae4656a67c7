import { defineConfig, devices } from '@playwright/test';
import { findBrowser } from './test/browser.mjs';

const PORT = Number(process.env.E2E_PORT ?? 4173);
const browser = findBrowser();

/** The job as a person does it, in a real browser, against the production build (`npm run build` first). */
export default defineConfig({
  testDir: 'e2e',
  outputDir: 'test-results',
  fullyParallel: true,
  workers: 2,
  // A loaded machine may be late once; what fails twice is wrong.
  retries: process.env.CI ? 1 : 0,
  forbidOnly: Boolean(process.env.CI),
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: process.env.PLAYWRIGHT_JSON_OUTPUT_FILE ? [['list'], ['json']] : [['list']],
  use: {
    ...devices['Desktop Chrome'],
    baseURL: `http://localhost:${PORT}`,
    viewport: { width: 1280, height: 800 },
    reducedMotion: 'reduce',
    // Each test is a first visit: none but that of the worker waits for it to fetch the whole page.
    serviceWorkers: 'block',
    // Recording makes every test half as long again: only what failed is recorded, in its second try (or by `--trace on`).
    trace: 'on-first-retry',
    screenshot: 'only-on-failure',
    launchOptions: {
      ...(browser.path === null ? {} : { executablePath: browser.path }),
      args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--font-render-hinting=none'],
    },
  },
  webServer: {
    command: `npx vite preview --port ${PORT} --strictPort`,
    url: `http://localhost:${PORT}`,
    reuseExistingServer: false,
    timeout: 30_000,
  },
});
