import type { PartKind } from './types.ts';

const modules = import.meta.glob<Record<string, unknown>>('./kinds/*.ts', { eager: true });

/** Every part kind, by its name. A new file in `kinds/` is enough to add one. */
export const partKinds: ReadonlyMap<string, PartKind> = new Map(
  Object.values(modules)
    .flatMap((m) => Object.values(m))
    .filter((v): v is PartKind => typeof v === 'object' && v !== null && 'kind' in v && 'terminals' in v)
    .map((k) => [k.kind, k]),
);

/**
 * The kind of that name.
 * @throws Error when there is none (the codec refuses unknown kinds, so this is programmer misuse).
 */
export function partKind(name: string): PartKind {
  const kind = partKinds.get(name);
  if (!kind) throw new Error(`no part kind "${name}"`);
  return kind;
}
