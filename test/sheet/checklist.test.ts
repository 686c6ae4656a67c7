import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Facts } from '../../src/analysis/factsTypes.ts';
import { readPlan } from '../../src/codec/index.ts';
import type { Account } from '../../src/rules/account/index.ts';
import { catalogueLines, checklistGroups } from '../../src/sheet/checklist.ts';
import { contextOf } from '../../src/sheet/context.ts';
import { results } from './fixture.ts';

const entry = (line: string, more: Partial<Extract<Account, { how: 'checklist' }>> = {}): Account => ({
  code: 'Z1',
  how: 'checklist',
  when: 'wiring',
  line,
  reason: 'No drawing shows it.',
  ...more,
});
const facts = { plan: { title: 'seen' } } as unknown as Facts;

describe('lines of the catalogue', () => {
  it('are those that apply, and of them only lines for the checklist', () => {
    const entries: Account[] = [
      entry('Always.'),
      entry('Here.', { applies: (f) => f.plan.title === 'seen' }),
      entry('Elsewhere.', { applies: () => false }),
      { code: 'Z2', how: 'left out', reason: 'Never seen.' },
    ];
    expect(catalogueLines(entries, () => facts).map((l) => l.line)).toEqual(['Always.', 'Here.']);
  });

  it('are printed rather than lost where their question fails', () => {
    const broken = entry('Broken.', {
      applies: () => {
        throw new Error('no such part');
      },
    });
    expect(catalogueLines([broken], () => facts)).toHaveLength(1);
  });
});

describe('the checklist', () => {
  it('stands in the order of the work', () => {
    const order = ['Before starting', 'While wiring', 'Before closing up', 'Before handing over'];
    const titles = checklistGroups(contextOf(results)).map((g) => g.title);
    expect(titles).toEqual(order.filter((t) => titles.includes(t)));
    expect(titles.length).toBeGreaterThan(1);
  });

  it('does not ask about what the plan does not have', () => {
    const lines = checklistGroups(contextOf(results)).flatMap((g) => g.lines);
    expect(lines.some((l) => l.includes('pin 1 of the header'))).toBe(true);
    expect(lines.some((l) => /camera picture|headlining/i.test(l))).toBe(false);
  });

  /** Words that carry meaning. */
  const words = (line: string): Set<string> => new Set(line.toLowerCase().match(/\p{L}{4,}/gu) ?? []);

  it.each(readdirSync('public/plans'))('says nothing twice, in whole sentences: %s', (file) => {
    const read = readPlan(readFileSync(`public/plans/${file}`, 'utf8'));
    if (!read.ok) throw new Error(file);
    const lines = checklistGroups(contextOf(computeResults(read.plan))).flatMap((g) => g.lines);
    const alike = lines.flatMap((a, i) =>
      lines.slice(i + 1).flatMap((b) => {
        const [one, two] = [words(a), words(b)];
        const shared = [...one].filter((w) => two.has(w)).length;
        // Two lines that share half of the shorter one's words tell the same thing.
        return shared >= 3 && shared >= 0.5 * Math.min(one.size, two.size) ? [`${a} | ${b}`] : [];
      }),
    );
    expect(alike).toEqual([]);
    for (const line of lines) expect(line).toMatch(/^[A-Z].*\.$/);
  });
});
