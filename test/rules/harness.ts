import { expect } from 'vitest';
import { computeResults, type OfferedRepair, type Results, repairsFor } from '../../src/advise/index.ts';
import { makeFacts } from '../../src/analysis/facts.ts';
import type { Facts } from '../../src/analysis/factsTypes.ts';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import type { Id, Plan } from '../../src/plan/types.ts';
import { ruleById } from '../../src/rules/index.ts';
import type { Finding, Level, RuleDef, Verdict } from '../../src/rules/types.ts';
import { applyOrThrow } from './applied.ts';
import type { Bench } from './plans.ts';

/** What a test expects of one finding. */
export interface Expected {
  readonly level: Level;
  /** Id of the part, wire or plan it must speak of. */
  readonly subject: Id;
  /** Figures by label, compared to 2 %. */
  readonly figures?: Readonly<Record<string, number>>;
  /** Pieces of text that must stand in `what`. */
  readonly says?: readonly string[];
  /** How many repairs must be offered at least; all that are offered are tried. */
  readonly repairs?: number;
}

type Given = Plan | Bench;
const planOf = (given: Given): Plan => ('plan' in given ? given.plan : given);

/** Everything computed for a plan that nothing may change. No rule may have thrown. */
export function compute(given: Given): Results {
  const results = computeResults(frozen(planOf(given)));
  expect(results.report.crashed, 'rules that threw').toEqual([]);
  return frozen(results);
}

export function factsOf(results: Results): Facts {
  return makeFacts(results.filled, results.analysis);
}

/** Findings of one rule, unfolded. */
export function findingsOf(results: Results, rule: string): Finding[] {
  return results.report.findings.filter((f) => f.rule === rule);
}

/**
 * The plan must bring exactly one finding of this rule on this subject, in good words, and every repair that is offered
 * must take it away, leave a plan that a file can hold, and raise no new hazard.
 */
export function flagged(given: Given, ruleId: string, expected: Expected): Finding {
  const plan = planOf(given);
  const results = compute(plan);
  const rule = ruleNamed(ruleId);
  const all = findingsOf(results, ruleId);
  const said = all.map((f) => `${f.level} ${f.subject.id}: ${f.what}`).join('\n') || 'nothing';
  const here = all.filter((f) => f.subject.id === expected.subject);
  expect(here.length, `${ruleId} on ${expected.subject}; it said\n${said}`).toBe(1);
  for (const f of all) inGoodWords(f, rule, results);
  const finding = here[0]!;
  expect(finding.level, finding.what).toBe(expected.level);
  for (const [label, value] of Object.entries(expected.figures ?? {})) {
    const figure = finding.figures.find((f) => f.label === label);
    expect(figure, `figure "${label}" among ${finding.figures.map((f) => f.label).join(', ')}`).toBeDefined();
    expect(Math.abs(figure!.value - value), `${label}: ${figure!.value}, expected ${value}`).toBeLessThanOrEqual(0.02 * Math.abs(value) + 1e-12);
  }
  for (const piece of expected.says ?? []) expect(finding.what).toContain(piece);
  const offers = repairsFor(plan, results, finding);
  expect(offers.length, `repairs of ${ruleId}: ${offers.map((o) => o.title).join(', ')}`).toBeGreaterThanOrEqual(expected.repairs ?? 0);
  for (const offer of offers) repaired(plan, results, finding, offer);
  return finding;
}

/** What a rule offers for its first finding. */
export function repairsOf(given: Given, ruleId: string): OfferedRepair[] {
  const results = compute(given);
  const finding = findingsOf(results, ruleId)[0];
  return finding ? repairsFor(planOf(given), results, finding) : [];
}

/** The rule must apply to the plan and find nothing. */
export function clean(given: Given, ruleId: string): void {
  const results = compute(given);
  const verdicts = verdictsOf(results, ruleId);
  expect(findingsOf(results, ruleId).map((f) => f.what)).toEqual([]);
  expect(
    verdicts.some((v) => v.outcome === 'fine'),
    `${ruleId} does not apply to this plan: ${verdicts.map((v) => v.outcome).join(', ')}`,
  ).toBe(true);
}

/** The rule must have nothing to say about the plan: no verdict, or none but "cannot tell". */
export function quiet(given: Given, ruleId: string): void {
  const results = compute(given);
  expect(findingsOf(results, ruleId).map((f) => f.what)).toEqual([]);
}

/** The rule must say that it cannot tell, and what it misses. */
export function unsure(given: Given, ruleId: string, needs: string): void {
  const results = compute(given);
  const open = results.report.cannotTell.filter((c) => c.rule === ruleId).map((c) => c.needs);
  expect(
    open.some((n) => n.includes(needs)),
    `${ruleId} needs: ${open.join('; ')}`,
  ).toBe(true);
}

export function verdictsOf(results: Results, ruleId: string): readonly Verdict[] {
  return ruleNamed(ruleId).check(factsOf(results));
}

function ruleNamed(id: string): RuleDef {
  const rule = ruleById.get(id);
  if (!rule) throw new Error(`there is no rule "${id}"`);
  return rule;
}

/** Applies one offered repair and looks again. */
function repaired(plan: Plan, before: Results, finding: Finding, offer: OfferedRepair): void {
  const title = `repair "${offer.title}" of ${finding.rule}`;
  expect(offer.title, title).not.toMatch(BAD_TEXT);
  const next = applyOrThrow(plan, offer.edit);
  const file = writePlan(next);
  const read = readPlan(file);
  expect(read.ok ? [] : read.problems, `${title}: its plan reads back`).toEqual([]);
  if (read.ok) expect(writePlan(read.plan), `${title}: its plan reads back the same`).toBe(file);
  const after = compute(next);
  const still = findingsOf(after, finding.rule).filter((f) => f.subject.id === finding.subject.id);
  expect(
    still.map((f) => f.what),
    `${title} leaves it standing`,
  ).toEqual([]);
  expect(newHazards(before, after), `${title} raises`).toEqual([]);
}

/** Hazards of a rule that has more of them than before. */
function newHazards(before: Results, after: Results): string[] {
  const count = (r: Results): Map<string, number> => {
    const n = new Map<string, number>();
    for (const f of r.report.findings) if (f.level === 'hazard') n.set(f.rule, (n.get(f.rule) ?? 0) + 1);
    return n;
  };
  const had = count(before);
  return [...count(after)]
    .filter(([rule, n]) => n > (had.get(rule) ?? 0))
    .flatMap(([rule]) => after.report.findings.filter((f) => f.rule === rule && f.level === 'hazard').map((f) => `${rule}: ${f.what}`));
}

/** Unfilled places, numbers that are none, and words that promise or belittle. */
const BAD_TEXT = /undefined|NaN|null|\[object|\$\{|\bInfinity\b|\bsafe(ly)?\b|\bjust (?!unlocked|after)|\s{2,}|\(\)|: \./i;

function inGoodWords(f: Finding, rule: RuleDef, results: Results): void {
  expect(f.code).toBe(rule.code);
  for (const text of [f.what, f.todo]) {
    expect(text, f.rule).toMatch(/^[^a-z].*\.$/s);
    expect(text, f.rule).not.toMatch(BAD_TEXT);
  }
  expect(new Set(f.related.map((r) => `${r.kind} ${r.id}`)).size, `${f.rule} lights a thing up twice`).toBe(f.related.length);
  for (const s of [f.subject, ...f.related]) {
    const there = s.kind === 'part' ? results.filled.parts[s.id] : s.kind === 'wire' ? results.filled.wires[s.id] : results.filled.id === s.id;
    expect(there, `${f.rule} speaks of ${s.kind} ${s.id}`).toBeTruthy();
  }
  for (const figure of f.figures) {
    expect(Number.isNaN(figure.value), `${f.rule}: ${figure.label}`).toBe(false);
    expect(figure.unit.length + figure.label.length).toBeGreaterThan(2);
  }
  if (f.level === 'hazard') expect(rule.level, `${f.rule} gives a hazard`).toBe('hazard');
}

/** Freezes plain data all the way down; typed arrays are left, they cannot be frozen. */
function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || Object.isFrozen(value)) return value;
  Object.freeze(value);
  for (const inner of Object.values(value)) frozen(inner);
  return value;
}
