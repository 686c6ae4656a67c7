/** Reads TypeScript sources for the tests of the house: files, code without comments or strings, import targets. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';

export interface SourceFile {
  /** Path under src/, with slashes. */
  readonly path: string;
  readonly text: string;
}

const ROOT = join(import.meta.dirname, '../../src');

export function sourceFiles(): readonly SourceFile[] {
  return readdirSync(ROOT, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => ({ path: relative('.', name).replaceAll('\\', '/'), text: readFileSync(join(ROOT, name), 'utf8') }))
    .sort((a, b) => a.path.localeCompare(b.path));
}

const REGEX_MAY_FOLLOW = /(?:^|[(,=:[!&|?{};+\-*%>~^]|\breturn|\bcase|=>)\s*$/;

/**
 * The code with comments blanked, and with strings blanked too when `strings` is false. Blanks keep positions.
 * Template literals count as strings as a whole, with what stands in their braces.
 */
export function bare(text: string, strings: boolean): string {
  let out = '';
  let i = 0;
  const take = (end: number, keep: boolean): void => {
    const piece = text.slice(i, end);
    out += keep ? piece : piece.replace(/[^\n]/g, ' ');
    i = end;
  };
  while (i < text.length) {
    const two = text.slice(i, i + 2);
    const c = text[i]!;
    if (two === '//') take(endOf(text, '\n', i), false);
    else if (two === '/*') take(endOf(text, '*/', i + 2) + 2, false);
    else if (c === "'" || c === '"' || c === '`') take(closing(text, i, c), strings);
    else if (c === '/' && two !== '/>' && REGEX_MAY_FOLLOW.test(out.slice(-40))) take(closingRegex(text, i), strings);
    else take(i + 1, true);
  }
  return out;
}

const endOf = (text: string, mark: string, from: number): number => {
  const at = text.indexOf(mark, from);
  return at < 0 ? text.length : at;
};

function closing(text: string, from: number, quote: string): number {
  let i = from + 1;
  while (i < text.length && text[i] !== quote && !(quote !== '`' && text[i] === '\n')) i += text[i] === '\\' ? 2 : 1;
  return Math.min(text.length, i + 1);
}

function closingRegex(text: string, from: number): number {
  let i = from + 1;
  let inClass = false;
  while (i < text.length && text[i] !== '\n' && (inClass || text[i] !== '/')) {
    if (text[i] === '[') inClass = true;
    if (text[i] === ']') inClass = false;
    i += text[i] === '\\' ? 2 : 1;
  }
  return Math.min(text.length, i + 1);
}

const IMPORTS = [
  /\b(?:import|export)\b[^'"`;()]*?\bfrom\s*['"]([^'"]+)['"]/g, // import x from, export x from
  /\bimport\s*['"]([^'"]+)['"]/g, // for effect
  /\bimport\s*\(\s*['"`]([^'"`]+)['"`]/g, // on demand, and types: import('...')
  /\bimport\.meta\.glob\b[^'"`]*?['"`]([^'"`]+)['"`]/g, // files by pattern
  /\bnew URL\(\s*['"]([^'"]+)['"]\s*,\s*import\.meta\.url/g, // workers
];

/** Everything a file imports, as written. */
export function importsOf(text: string): readonly string[] {
  const code = bare(text, true);
  return IMPORTS.flatMap((pattern) => [...code.matchAll(pattern)].map((m) => m[1]!));
}

/** Path under src/ that a relative import of a file points to; null for a package. */
export function resolve(from: string, target: string): string | null {
  if (!target.startsWith('.')) return null;
  return join('/', from, '..', target).replaceAll('\\', '/').slice(1);
}
