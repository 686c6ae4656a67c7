import type { RuleDef } from './types.ts';

const modules = import.meta.glob<Record<string, unknown>>('./catalogue/*.ts', { eager: true });

/** Every rule in catalogue order. A new file in `catalogue/` is enough to add one. */
export const rules: readonly RuleDef[] = Object.values(modules)
  .flatMap((m) => Object.values(m))
  .filter((v): v is RuleDef => typeof v === 'object' && v !== null && 'check' in v && 'code' in v)
  .sort((a, b) => a.code[0]!.localeCompare(b.code[0]!) || Number(a.code.slice(1)) - Number(b.code.slice(1)));

export const ruleById: ReadonlyMap<string, RuleDef> = new Map(rules.map((r) => [r.id, r]));
