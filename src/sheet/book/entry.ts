import { computeResults, repairsFor } from '../../advise/index.ts';
import type { Results } from '../../advise/types.ts';
import type { Id, Plan } from '../../plan/types.ts';
import type { Bench } from '../../rules/book/bench.ts';
import { exampleOf } from '../../rules/book/index.ts';
import type { Example } from '../../rules/book/types.ts';
import type { Finding, RuleDef } from '../../rules/types.ts';
import { drawExample, partsOf } from './drawExample.ts';

/** One rule as the rule book shows it. Drawings are SVG text. */
export interface BookEntry {
  readonly rule: RuleDef;
  readonly flagged: { readonly svg: string; readonly what: string; readonly todo: string } | null;
  readonly clean: { readonly svg: string; readonly what: string } | null;
  /** What the tool offers to do about the flagged example. */
  readonly repairs: readonly string[];
}

/**
 * Works out one page of the rule book from the rule and its example.
 * @param serial first of two numbers for ids inside the drawings
 */
export async function bookEntry(rule: RuleDef, serial = 1): Promise<BookEntry> {
  const example = await exampleOf(rule.id);
  if (!example) return { rule, flagged: null, clean: null, repairs: [] };
  const bad = example.flagged();
  const plan = nameless(bad.plan);
  const results = computeResults(plan);
  const finding = results.report.findings.find((f) => f.rule === rule.id);
  if (!finding) return { rule, flagged: null, clean: null, repairs: [] };
  const keep = shown(example, bad, results, finding);
  const good = example.clean();
  const goodResults = computeResults(nameless(good.plan));
  return {
    rule,
    flagged: {
      svg: drawExample(results, keep, finding, `Flagged: ${rule.title}`, serial),
      what: finding.what,
      todo: finding.todo,
    },
    clean: { svg: drawExample(goodResults, sameIn(good, bad, keep), null, `In order: ${rule.title}`, serial + 1), what: example.inOrder },
    repairs: repairsFor(plan, results, finding).map((r) => r.title),
  };
}

/** In the book parts go by what they are. */
function nameless(plan: Plan): Plan {
  const parts = Object.values(plan.parts).map(({ name: _, ...part }) => [part.id, part] as const);
  return { ...plan, parts: Object.fromEntries(parts) };
}

/** Most parts in one small drawing. */
const MOST_PARTS = 9;

function shown(example: Example, bench: Bench, results: Results, finding: Finding): Set<Id> {
  const keep = partsOf(results, finding);
  for (const name of example.also ?? []) keep.add(bench.id(name));
  // A part alone tells nothing: its neighbours come along, what it is wired to first.
  if (keep.size < 3)
    for (const wire of Object.values(results.filled.wires)) {
      if (keep.size >= 5) break;
      if (wire.from.part === finding.subject.id) keep.add(wire.to.part);
      else if (wire.to.part === finding.subject.id) keep.add(wire.from.part);
    }
  const few = new Set([...keep].slice(0, MOST_PARTS));
  // What nothing joins to the others here would only stand about.
  return new Set([...few].filter((id) => id === finding.subject.id || [...(neighbours(results.filled).get(id) ?? [])].some((n) => few.has(n))));
}

/** The same parts in the other plan, by their short names, with what stands there between them. */
function sameIn(good: Bench, bad: Bench, keep: ReadonlySet<Id>): Set<Id> {
  const found = new Set<Id>();
  for (const id of keep) {
    const name = bad.nameOf(id);
    if (name !== null && good.has(name)) found.add(good.id(name));
  }
  for (const [id, ends] of neighbours(good.plan)) {
    const name = good.nameOf(id);
    if (!found.has(id) && name !== null && !bad.has(name) && [...ends].some((end) => found.has(end))) found.add(id);
  }
  return found;
}

function neighbours(plan: Plan): Map<Id, Set<Id>> {
  const next = new Map<Id, Set<Id>>();
  for (const { from, to } of Object.values(plan.wires)) {
    for (const [a, b] of [
      [from.part, to.part],
      [to.part, from.part],
    ] as const)
      next.set(a, (next.get(a) ?? new Set<Id>()).add(b));
  }
  return next;
}
