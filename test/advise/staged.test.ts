import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { withSecondLook } from '../../src/advise/secondLook.ts';
import { settlePlan } from '../../src/advise/settle.ts';
import { stagedResults } from '../../src/advise/staged.ts';
import { makeFacts } from '../../src/analysis/facts.ts';
import { analyse } from '../../src/analysis/index.ts';
import type { Analysis } from '../../src/analysis/types.ts';
import type { Plan } from '../../src/plan/types.ts';
import { example as tooHigh } from '../../src/rules/book/examples/five-volt-window.ts';
import type { Example } from '../../src/rules/book/types.ts';
import { ruleById, rules } from '../../src/rules/index.ts';
import type { RuleDef } from '../../src/rules/types.ts';
import { allKinds, bench } from '../rules/plans.ts';
import { allHolds } from '../rules/plansSense.ts';

const files = import.meta.glob<{ example: Example }>('../../src/rules/book/examples/*.ts', { eager: true });
const examples = Object.entries(files).map(([path, m]) => [path.replace(/^.*\/|\.ts$/g, ''), m.example] as const);

/** The same analysis; `asked` hears when somebody reads a figure that takes solves of its own. */
function watched(analysis: Analysis, asked: () => void): Analysis {
  const heard = <T>(value: T) => ({
    enumerable: true,
    get: () => {
      asked();
      return value;
    },
  });
  const arrivals = analysis.arrivals.map((a) => Object.defineProperties({ ...a }, { worstLow: heard(a.worstLow), worstHigh: heard(a.worstHigh) }));
  return Object.defineProperties({ ...analysis, arrivals }, { dependsOnHistory: heard(analysis.dependsOnHistory) });
}

describe('rules that need solves of their own', () => {
  it('are those that are marked so, and no others', () => {
    const asking = new Set<string>();
    const look = (plan: Plan, looking: readonly RuleDef[]): void => {
      const { filled, known } = settlePlan(plan);
      const { analysis, groundwork } = analyse(filled, known);
      let now = '';
      const facts = makeFacts(
        filled,
        watched(analysis, () => now !== '' && asking.add(now)),
        groundwork,
      );
      for (const rule of looking) {
        now = rule.id;
        rule.check(facts);
      }
    };
    for (const [id, example] of examples) look(example.flagged().plan, [ruleById.get(id)!]);
    for (const b of [...allKinds(), allHolds(), bench()]) look(b.plan, rules);
    const marked = rules.filter((r) => r.needs === 'solve').map((r) => r.id);
    expect([...asking].sort()).toEqual(marked.sort());
    expect(marked.length).toBeGreaterThan(0);
  });
});

describe('results in two steps', () => {
  it('come to what they are at once', () => {
    for (const [, example] of examples.filter((_, i) => i % 12 === 0)) {
      const { plan } = example.flagged();
      const staged = stagedResults(plan);
      expect(withSecondLook(staged.first(), staged.second().look)).toEqual(computeResults(plan));
    }
  });

  it('say first what needs no solves, in the same words', () => {
    const { plan } = tooHigh.flagged();
    const staged = stagedResults(plan);
    const first = staged.first();
    const whole = staged.whole();
    const isLate = (rule: string): boolean => rules.find((r) => r.id === rule)!.needs === 'solve';
    expect(whole.report.findings.some((f) => f.rule === 'five-volt-window')).toBe(true);
    expect(first.report.findings).toEqual(whole.report.findings.filter((f) => !isLate(f.rule)));
    expect(first.analysis.arrivals.every((a) => a.worstLow === null && a.worstHigh === null)).toBe(true);
    expect(first.analysis.readings).toBe(whole.analysis.readings);
  });

  it('keep what the second look said of the plan before until it has looked again', () => {
    const { plan } = tooHigh.flagged();
    const { kept, look } = stagedResults(plan).second();
    const changed = { ...plan, title: 'another title' };
    const first = stagedResults(changed).first(kept);
    expect(first.report.cards).toEqual(look.report.cards);
    expect(first.analysis.arrivals).toEqual(look.figures.arrivals);
    // Another plan is not that plan.
    expect(
      stagedResults({ ...plan, id: 'other' })
        .first(kept)
        .report.findings.some((f) => f.rule === 'five-volt-window'),
    ).toBe(false);
  });

  it('keep nothing of parts that are gone', () => {
    const { plan } = tooHigh.flagged();
    const staged = stagedResults(plan);
    const { kept, look } = staged.second();
    const spoken = look.report.findings.find((f) => f.rule === 'five-volt-window')!.subject.id;
    const parts = Object.fromEntries(Object.entries(plan.parts).filter(([id]) => id !== spoken));
    const wires = Object.fromEntries(Object.entries(plan.wires).filter(([, w]) => w.from.part !== spoken && w.to.part !== spoken));
    const first = stagedResults({ ...plan, parts, wires }).first(kept);
    expect(first.report.findings.filter((f) => f.subject.id === spoken)).toEqual([]);
  });
});
