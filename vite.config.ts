import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  build: { target: 'es2022', chunkSizeWarningLimit: 900 },
  test: {
    include: ['test/**/*.test.ts'],
    isolate: false,
    pool: 'threads',
    testTimeout: 30_000,
  },
});
