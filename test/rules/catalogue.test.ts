import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mistakes } from '../../src/advise/mistakes.ts';
import type { Plan } from '../../src/plan/types.ts';
import { rules } from '../../src/rules/index.ts';
import { applyOrThrow } from './applied.ts';
import { clean, compute, flagged } from './harness.ts';
import { allKinds, bench } from './plans.ts';
import { allHolds } from './plansSense.ts';

const HERE = import.meta.dirname;
const CATALOGUE = join(HERE, '../../src/rules/catalogue');
const demo = JSON.parse(readFileSync(join(HERE, '../../public/plans/mobile-library-van.plan.json'), 'utf8')) as Plan;

/** Words that promise or belittle. */
const BANNED = /\bsafe(ly|ty)?\b|\bjust\b|\bsimply\b|\bobviously\b|[\u{1F300}-\u{1FAFF}✓✔]/iu;

describe('every rule', () => {
  it('has a file of its own name', () => {
    const files = readdirSync(CATALOGUE)
      .filter((f) => f.endsWith('.ts'))
      .map((f) => f.replace('.ts', ''));
    expect([...rules].map((r) => r.id).sort()).toEqual(files.sort());
    expect(new Set(rules.map((r) => r.code)).size, 'no catalogue code stands twice').toBe(rules.length);
  });

  it.each(rules.map((r) => [r.id, r] as const))('%s says why, by what source, and is tried on a plan to flag and one to pass', (id, rule) => {
    for (const text of [rule.title, rule.why, rule.source.text]) expect(text).not.toMatch(BANNED);
    expect(rule.why).toMatch(/^[A-Z0-9].*\.$/s);
    expect(rule.title).not.toMatch(/[.!]$/);
    expect(rule.why.length, 'a beginner can read it in one breath').toBeLessThan(420);
    for (const other of rule.explains ?? [])
      expect(
        rules.map((r) => r.id),
        `${id} explains ${other}`,
      ).toContain(other);
    const file = join(HERE, `${id}.test.ts`);
    expect(existsSync(file), `test/rules/${id}.test.ts`).toBe(true);
    const test = readFileSync(file, 'utf8');
    expect(test).toContain('flagged(');
    expect(test).toContain('clean(');
  });
});

describe('the harness', () => {
  it('can fail', () => {
    const b = bench().set('bulk', { ratedV: 25 });
    const at = { level: 'hazard', subject: b.id('bulk') } as const;
    expect(() => flagged(bench(), 'capacitor-volts', at), 'nothing found').toThrow();
    expect(() => flagged(b, 'capacitor-volts', { ...at, level: 'advice' }), 'another level').toThrow();
    expect(() => flagged(b, 'capacitor-volts', { ...at, subject: b.id('clamp') }), 'another part').toThrow();
    expect(() => flagged(b, 'capacitor-volts', { ...at, figures: { rated: 26 } }), 'another number').toThrow();
    expect(() => flagged(b, 'capacitor-volts', { ...at, repairs: 2 }), 'too few repairs').toThrow();
    expect(() => clean(b, 'capacitor-volts'), 'found something').toThrow();
    expect(() => clean(bench(), 'regulator-too-hot'), 'does not apply').toThrow();
  });
});

describe('the demo', () => {
  it('has no hazard and no fault, and nothing that cannot be told', () => {
    const { report } = compute(demo);
    expect(report.findings.filter((f) => f.level !== 'advice').map((f) => `${f.code} ${f.what}`)).toEqual([]);
    expect(report.cannotTell).toEqual([]);
  });

  it.each(mistakes.map((m) => [m.id, m] as const))('%s is answered', (_id, mistake) => {
    const edit = mistake.edit(demo);
    expect(edit).not.toBeNull();
    const { findings } = compute(applyOrThrow(demo, edit!)).report;
    const answer = findings.find((f) => f.code === mistake.answers);
    expect(answer?.what, `${mistake.answers} among ${findings.map((f) => f.code).join(' ')}`).toBeDefined();
    expect(answer!.level).not.toBe('advice');
  });
});

describe('four plans', () => {
  it('make every rule apply', () => {
    const plans: readonly Plan[] = [demo, ...[...allKinds(), allHolds()].map((b) => b.plan)];
    expect(plans.length).toBeLessThanOrEqual(4);
    const idle = plans.map((p) => new Set(compute(p).report.notApplicable));
    expect(rules.map((r) => r.id).filter((id) => idle.every((n) => n.has(id)))).toEqual([]);
  });
});
