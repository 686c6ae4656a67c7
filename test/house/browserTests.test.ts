import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';

// Browser tests run without the bundler: what gathers its files by a pattern cannot be loaded there.
const IMPORT = /^(?:import|export)\s+(?!type\b)(?:[^'"]*?\bfrom\s+)?['"](\.[^'"]+)['"]/gm;

/** Files that a file loads when it runs; those of which types alone are taken are not among them. */
function loads(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(IMPORT)].filter(([line]) => !/^\w+\s*\{(\s*type\s+\w+\s*,?)+\}\s*from/.test(line)).map(([, path]) => join(dirname(file), path!));
}

it.each(readdirSync('e2e').filter((f) => f.endsWith('.ts')))('e2e/%s loads nothing that reaches the parts registry', (name) => {
  const ways = new Map<string, string>([[join('e2e', name), name]]);
  for (const [file, way] of ways) {
    expect(readFileSync(file, 'utf8').includes('import.meta.glob'), way).toBe(false);
    for (const next of loads(file)) if (next.endsWith('.ts') && !ways.has(next)) ways.set(next, `${way} > ${next}`);
  }
});
