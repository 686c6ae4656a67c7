import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { kindForAll, type MendedAll, mendAll } from '../../src/advise/mendAll.ts';
import { writePlan } from '../../src/codec/index.ts';
import { apply, invert } from '../../src/plan/apply.ts';
import type { Plan } from '../../src/plan/types.ts';
import { applyOrThrow } from '../rules/applied.ts';
import { bench } from '../rules/plans.ts';

/** Buttons on GPIO 5, 6 and 13 (pins 29, 31, 33), each with the pin's own pull off. */
const buttons = () =>
  [29, 31, 33]
    .reduce(
      (b, pin) => b.part(`b${pin}`, 'push-button', 'desk').wire(`b${pin}.1`, `computer.${pin}`, {}, `pin${pin}`).wire(`b${pin}.2`, 'converter.0v'),
      bench(),
    )
    .set('computer', { gpio5Mode: 'in', gpio6Mode: 'in', gpio13Mode: 'in' });

function run(steps: Generator<number, MendedAll>): { readonly seen: number[]; readonly end: MendedAll } {
  const seen: number[] = [];
  for (;;) {
    const step = steps.next();
    if (step.done) return { seen, end: step.value };
    seen.push(step.value);
  }
}

const cardOf = (plan: Plan, rule: string) => {
  const results = computeResults(plan);
  return { results, findings: results.report.cards.find((c) => c.rule === rule)?.findings ?? [] };
};

describe('mending all findings of a card', () => {
  it('takes each repair against the plan that the last one left, as one edit that undoes as one', () => {
    const { plan } = buttons();
    const { results, findings } = cardOf(plan, 'input-left-floating');
    expect(findings).toHaveLength(3);
    const kind = kindForAll(plan, results, findings);
    expect(kind).toBe('Switch');
    const { seen, end } = run(mendAll(plan, results, findings, 'Switch'));
    expect(seen).toEqual([1, 2, 3]);
    expect(end.mended).toBe(3);
    expect(end.edit).toMatchObject({ intent: 'repair.apply', label: 'Mend 3 × input left hanging' });
    const after = applyOrThrow(plan, end.edit!);
    expect(cardOf(after, 'input-left-floating').findings).toEqual([]);
    const back = apply(after, invert(end.edit!));
    expect(back.ok && writePlan(back.plan)).toBe(writePlan(plan));
  });

  it('also where each adds parts, which then take ids of their own', () => {
    const { plan } = buttons();
    const { results, findings } = cardOf(plan, 'input-left-floating');
    const { end } = run(mendAll(plan, results, findings, 'Add'));
    const after = applyOrThrow(plan, end.edit!);
    expect(end.mended).toBe(3);
    expect(Object.keys(after.parts).length - Object.keys(plan.parts).length).toBe(3);
  });

  it('stops where one has no repair of that kind, and keeps what went before', () => {
    const { plan } = buttons().set('fuse', { ratingA: 30 });
    const { results, findings } = cardOf(plan, 'input-left-floating');
    const other = results.report.findings.find((f) => f.rule !== 'input-left-floating')!;
    const { seen, end } = run(mendAll(plan, results, [findings[0]!, other, findings[1]!], 'Switch'));
    expect(seen).toEqual([1]);
    expect(end).toMatchObject({ mended: 1, edit: { label: 'Mend 1 × input left hanging' } });
    expect(cardOf(applyOrThrow(plan, end.edit!), 'input-left-floating').findings.map((f) => f.subject.id)).toEqual(findings.slice(1).map((f) => f.subject.id));
    expect(run(mendAll(plan, results, findings, 'Paint'))).toEqual({ seen: [], end: { edit: null, mended: 0 } });
  });

  it('one finding alone, or one that asks first among them, has no way for all', () => {
    const one = bench().part('b', 'push-button', 'desk').wire('b.1', 'computer.29').wire('b.2', 'converter.0v').set('computer', { gpio5Mode: 'in' });
    const { results, findings } = cardOf(one.plan, 'input-left-floating');
    expect(findings).toHaveLength(1);
    expect(kindForAll(one.plan, results, findings)).toBeNull();
    const more = cardOf(buttons().plan, 'input-left-floating');
    const asks = { ...more.findings[0]!, rule: 'fuse-too-small' };
    expect(kindForAll(buttons().plan, more.results, [more.findings[1]!, asks])).toBeNull();
  });
});
