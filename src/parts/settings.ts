import type { Setting } from './types.ts';

/** Short ways to write a part kind's setting descriptors: key, label, default, then where the default comes from. */
interface More {
  readonly automatic?: boolean;
  readonly help?: string;
  readonly rare?: boolean;
}
interface NumberMore extends More {
  readonly stocked?: readonly number[];
}

/** A number in SI with its limits. */
export function amount(
  key: string,
  label: string,
  unit: string,
  [least, usual, most]: readonly [min: number, preset: number, max: number],
  basis: string,
  more: NumberMore = {},
): Setting {
  return { type: 'number', key, label, unit, default: usual, min: least, max: most, basis, ...more };
}

/** One of several; the first option is the default. */
export function choice(key: string, label: string, options: readonly (readonly [value: string, label: string])[], basis: string, more: More = {}): Setting {
  const first = options[0];
  if (!first) throw new Error(`setting "${key}" offers nothing to choose`);
  return { type: 'choice', key, label, default: first[0], options: options.map(([value, text]) => ({ value, label: text })), basis, ...more };
}

/** Yes or no. */
export function yesNo(key: string, label: string, preset: boolean, basis: string, more: More = {}): Setting {
  return { type: 'flag', key, label, default: preset, basis, ...more };
}

/** Free text. */
export function words(key: string, label: string, preset: string, basis: string, more: More & { readonly maxLength?: number } = {}): Setting {
  const { maxLength = 60, ...rest } = more;
  return { type: 'text', key, label, default: preset, maxLength, basis, ...rest };
}
