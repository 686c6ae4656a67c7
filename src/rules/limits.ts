import { rules } from './index.ts';
import type { Limit } from './types.ts';

/** Every limit that a plan may change, once, in the order of the rules that use it, with those rules' titles. */
export const limits: readonly (Limit & { readonly rules: readonly string[] })[] = collect();

function collect(): (Limit & { rules: string[] })[] {
  const byKey = new Map<string, Limit & { rules: string[] }>();
  for (const rule of rules) {
    for (const limit of rule.limits ?? []) {
      const known = byKey.get(limit.key);
      if (known) known.rules.push(rule.title);
      else byKey.set(limit.key, { ...limit, rules: [rule.title] });
    }
  }
  return [...byKey.values()];
}
