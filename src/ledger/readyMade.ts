import type { PartKind } from '../parts/types.ts';
import type { Value, Values } from '../plan/types.ts';

type Variant = NonNullable<PartKind['variants']>[number];

/** The settings in which the ready-made ones of a kind differ. */
function differing(kind: PartKind): readonly string[] {
  return [...new Set((kind.variants ?? []).flatMap((v) => Object.keys(v.settings)))];
}

/**
 * Which ready-made one a part is: it has all its values, and the usual ones where others of the kind have their own. A
 * person's own word for it does not make it another. Undefined when it is none of them.
 */
export function readyMade(kind: PartKind, settings: Values): Variant | undefined {
  const valueIn = (of: Values, key: string): Value | undefined => of[key] ?? kind.settings.find((s) => s.key === key)?.default;
  const isWord = (key: string): boolean => kind.settings.find((s) => s.key === key)?.type === 'text';
  const keys = differing(kind);
  const alike = (v: Variant, of: readonly string[]): boolean => of.every((key) => valueIn(settings, key) === valueIn(v.settings, key));
  const found = (kind.variants ?? []).filter((v) =>
    alike(
      v,
      keys.filter((key) => !isWord(key)),
    ),
  );
  return found.find((v) => alike(v, keys)) ?? found[0];
}

/** What makes a part that ready-made one: its values, and nothing left of those of the others. */
export function settingsOfReadyMade(kind: PartKind, variant: Variant): Readonly<Record<string, Value | undefined>> {
  return Object.fromEntries(differing(kind).map((key) => [key, variant.settings[key]]));
}
