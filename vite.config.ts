import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  // Relative addresses: the build works from any folder of any host.
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  // The manifest tells the test command what a first visit downloads.
  build: { target: 'es2022', chunkSizeWarningLimit: 900, manifest: true },
  test: {
    include: ['test/**/*.test.ts'],
    isolate: false,
    pool: 'threads',
    setupFiles: ['test/setup.ts'],
    testTimeout: 120_000,
  },
});
