import type { z } from 'zod';
import type { PartKind, Setting } from '../parts/types.ts';

/** One thing that is wrong with a plan file: the place in it, and what is wrong there, in plain words. */
export interface Problem {
  /** E.g. `parts › p3 (blade-fuse) › ratingA`; '' = the file as a whole. */
  readonly where: string;
  readonly what: string;
}

type Issue = z.core.$ZodIssue;
type Kinds = ReadonlyMap<string, PartKind>;

/** Turns what the schema found into plain words. `raw` is the checked value. */
export function problemsOf(issues: readonly Issue[], raw: unknown, kinds: Kinds): Problem[] {
  return issues.flatMap((issue) => {
    const path = issue.path.map(String);
    if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => ({ where: whereOf([...path, key], raw), what: strayKey(path, raw, kinds) }));
    return [{ where: whereOf(path, raw), what: wordsFor(issue, valueAt(raw, path), settingAt(path, raw, kinds)) }];
  });
}

/** The place in words; a part is named with its kind, and "settings" is left out as a person never sees that level. */
export function whereOf(path: readonly string[], raw: unknown): string {
  const words = path.map((step, i) => {
    if (i !== 1 || path[0] !== 'parts') return step;
    const kind = valueAt(raw, ['parts', step, 'kind']);
    return typeof kind === 'string' ? `${step} (${clip(kind)})` : step;
  });
  return (path[0] === 'parts' && path.length > 3 ? words.filter((_, i) => i !== 2 || path[2] !== 'settings') : words).join(' › ');
}

function wordsFor(issue: Issue, value: unknown, setting: Setting | undefined): string {
  const unit = setting?.type === 'number' && setting.unit !== '' ? ` ${setting.unit}` : '';
  switch (issue.code) {
    case 'too_big':
      if (typeof value === 'string') return `${value.length} characters are more than the ${issue.maximum} that fit`;
      if (Array.isArray(value)) return `${value.length} entries are more than the ${issue.maximum} that fit`;
      return `${shown(value)} is above the largest allowed ${issue.maximum}${unit}`;
    case 'too_small':
      if (typeof value === 'string') return 'must not be empty';
      return `${shown(value)} is below the smallest allowed ${issue.minimum}${unit}`;
    case 'invalid_type':
      if (value === undefined) return 'is missing';
      return `must be ${NAMES[issue.expected] ?? issue.expected}, not ${shown(value)}`;
    case 'invalid_value':
      if (value === undefined) return 'is missing';
      return `${shown(value)} is not one of ${issue.values.map(String).join(', ')}`;
    case 'invalid_union':
      if (value === undefined) return 'is missing';
      return `there is no part kind ${shown(value)}`;
    case 'invalid_key':
      return 'this name cannot be used here';
    case 'invalid_format':
      return `${shown(value)} is not an id: a letter, then letters, figures, - or _`;
    default:
      return `${shown(value)} cannot be used here`;
  }
}

const NAMES: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  record: 'an object',
  array: 'a list',
};

function strayKey(path: readonly string[], raw: unknown, kinds: Kinds): string {
  const kind = path[0] === 'parts' && path[2] === 'settings' ? kinds.get(String(valueAt(raw, ['parts', path[1] ?? '', 'kind']))) : undefined;
  if (!kind) return 'is not known here';
  return `no such setting; a ${kind.kind} has ${kind.settings.map((s) => s.key).join(', ') || 'none'}`;
}

function settingAt(path: readonly string[], raw: unknown, kinds: Kinds): Setting | undefined {
  if (path[0] !== 'parts' || path[2] !== 'settings') return undefined;
  const kind = kinds.get(String(valueAt(raw, ['parts', path[1] ?? '', 'kind'])));
  return kind?.settings.find((s) => s.key === path[3]);
}

function valueAt(raw: unknown, path: readonly string[]): unknown {
  let value = raw;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Readonly<Record<string, unknown>>)[step];
  }
  return value;
}

function shown(value: unknown): string {
  if (typeof value === 'string') return `“${clip(value)}”`;
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  return String(value);
}

const clip = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);
