/** What a first visit downloads as script: the entry and everything it imports at once, gzipped. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** Agreed greatest size of the first script download, kB (1 kB = 1000 bytes). */
export const BUDGET_KB = 260;

/**
 * @param {string} folder Folder of a production build that has its manifest.
 * @returns {{ kB: number, files: string[] }}
 */
export function firstScriptSize(folder) {
  const manifestPath = join(folder, '.vite', 'manifest.json');
  if (!existsSync(manifestPath)) throw new Error(`${manifestPath} is missing: build first`);
  const manifest = JSON.parse(readFileSync(manifestPath, 'utf8'));
  const files = new Set();
  const visit = (key) => {
    const chunk = manifest[key];
    if (!chunk || files.has(chunk.file)) return;
    files.add(chunk.file);
    for (const next of chunk.imports ?? []) visit(next);
  };
  for (const key of Object.keys(manifest)) if (manifest[key].isEntry) visit(key);
  if (files.size === 0) throw new Error('the build has no entry chunk');
  let bytes = 0;
  for (const file of files) if (file.endsWith('.js')) bytes += gzipSync(readFileSync(join(folder, file)), { level: 9 }).length;
  return { kB: bytes / 1000, files: [...files] };
}
