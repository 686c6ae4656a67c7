import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rules } from '../../src/rules/index.ts';
import { limits } from '../../src/rules/limits.ts';

const CODE = ['src/rules', 'src/rules/catalogue'].flatMap((dir) =>
  readdirSync(dir)
    .filter((f) => f.endsWith('.ts'))
    .map((f) => readFileSync(`${dir}/${f}`, 'utf8')),
);

describe('limits that a plan may change', () => {
  it('every key that a rule asks for is declared, and every declared one is asked for', () => {
    const asked = new Set(CODE.flatMap((text) => [...text.matchAll(/\.threshold\('(\w+)'/g)].map((m) => m[1]!)));
    expect([...asked].sort()).toEqual(limits.map((l) => l.key).sort());
  });

  it('rules that share a limit say the same of it', () => {
    for (const rule of rules)
      for (const limit of rule.limits ?? []) {
        const { rules: _, ...first } = limits.find((l) => l.key === limit.key)!;
        expect(limit, rule.id).toEqual(first);
      }
  });

  it.each(limits)('$key: its default lies between its bounds, and its basis is named', (limit) => {
    expect(limit.value).toBeGreaterThanOrEqual(limit.least);
    expect(limit.value).toBeLessThanOrEqual(limit.most);
    expect(limit.basis.length).toBeGreaterThan(5);
  });
});
