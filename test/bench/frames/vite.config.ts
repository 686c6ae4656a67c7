import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The measuring page as a production build of its own. */
export default defineConfig({
  root: import.meta.dirname,
  base: './',
  plugins: [react()],
  build: { outDir: '../../../dist/frames', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 900 },
  preview: { host: '127.0.0.1', port: 5377, strictPort: true },
});
