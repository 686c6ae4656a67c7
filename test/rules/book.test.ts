import { describe, expect, it } from 'vitest';
import type { Example } from '../../src/rules/book/types.ts';
import { rules } from '../../src/rules/index.ts';
import { clean, compute, findingsOf } from './harness.ts';

// The rule book says of each pair of drawings what its rule says: one flagged, one passed.
const files = import.meta.glob<{ example: Example }>('../../src/rules/book/examples/*.ts', { eager: true });
const examples = new Map(Object.entries(files).map(([path, m]) => [path.replace(/^.*\/|\.ts$/g, ''), m.example]));

describe('examples of the rule book', () => {
  it('every rule has one, and every one has its rule', () => {
    expect([...examples.keys()].sort()).toEqual(rules.map((r) => r.id).sort());
  });

  it.each([...examples])('%s', (id, example) => {
    expect(findingsOf(compute(example.flagged()), id).length).toBeGreaterThan(0);
    clean(example.clean(), id);
  });
});

describe('where practitioners disagree', () => {
  it.each(rules.flatMap((r) => (r.disputed ? [[r.id, r.disputed] as const] : [])))('%s gives more than one view, and says which is taken here', (_, text) => {
    expect(text).toMatch(/^[A-Z0-9].*[.:?] .*\bHere\b.*\.$/s);
    expect(text.length, 'a beginner reads it to the end').toBeLessThan(460);
    expect(text).not.toMatch(/\bsafe(ly|ty)?\b|\bjust\b|\bsimply\b|\bobviously\b/i);
  });
});
