import { computeResults, repairsFor } from '../../advise/index.ts';
import type { Results } from '../../advise/types.ts';
import { gather } from '../../plan/gather.ts';
import type { Id, Plan } from '../../plan/types.ts';
import type { Bench } from '../../rules/book/bench.ts';
import { exampleOf } from '../../rules/book/index.ts';
import type { Example } from '../../rules/book/types.ts';
import type { Finding, RuleDef } from '../../rules/types.ts';
import { notesFor } from './differences.ts';
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
  const keep = wanted(example, bad, results, finding);
  const good = example.clean();
  const goodResults = computeResults(nameless(good.plan));
  return {
    rule,
    flagged: {
      svg: drawExample(
        results,
        joined(bad.plan, keep, finding.subject.id),
        finding,
        notesFor(bad, good, results.filled, finding),
        `Flagged: ${rule.title}`,
        serial,
      ),
      what: finding.what,
      todo: finding.todo,
    },
    clean: {
      svg: drawExample(
        goodResults,
        joined(good.plan, sameIn(good, bad, keep, example.also ?? []), null),
        null,
        notesFor(good, bad, goodResults.filled, null),
        `In order: ${rule.title}`,
        serial + 1,
      ),
      what: example.inOrder,
    },
    repairs: repairsFor(plan, results, finding).map((r) => r.title),
  };
}

/** In the book parts go by what they are. */
function nameless(plan: Plan): Plan {
  const parts = Object.values(plan.parts).map(({ name: _, ...part }) => [part.id, part] as const);
  return { ...plan, parts: Object.fromEntries(parts) };
}

/** Most parts in one small drawing. */
const MOST_PARTS = 10;

/** What the finding names and what the example adds, as far as one drawing holds it. */
function wanted(example: Example, bench: Bench, results: Results, finding: Finding): Set<Id> {
  const also = (example.also ?? []).filter((name) => bench.has(name)).map((name) => bench.id(name));
  // An example that says what belongs to it needs no more: a net's wires would bring in half of the plan.
  const keep = also.length > 0 ? new Set([...partsOf(results, finding, 'named'), ...also]) : partsOf(results, finding, 'ends');
  // A part alone tells nothing: its neighbours come along.
  if (keep.size < 3)
    for (const wire of Object.values(results.filled.wires)) {
      if (keep.size >= 5) break;
      if (wire.from.part === finding.subject.id) keep.add(wire.to.part);
      else if (wire.to.part === finding.subject.id) keep.add(wire.from.part);
    }
  return new Set([...keep].slice(0, MOST_PARTS));
}

/** What hangs together with the subject, or most of it: an island would only stand about. */
function joined(plan: Plan, keep: ReadonlySet<Id>, subject: Id | null): Set<Id> {
  const next = neighbours(plan);
  const islands: Set<Id>[] = [];
  for (const id of keep) {
    if (islands.some((i) => i.has(id))) continue;
    const island = new Set([id]);
    for (const at of island) for (const other of next.get(at) ?? []) if (keep.has(other)) island.add(other);
    islands.push(island);
  }
  const named = islands.find((i) => subject !== null && i.has(subject));
  return named ?? islands.reduce((most, i) => (i.size > most.size ? i : most), new Set<Id>());
}

/** The same parts in the other plan, by their short names, with what stands there between them or feeds them. */
function sameIn(good: Bench, bad: Bench, keep: ReadonlySet<Id>, also: readonly string[]): Set<Id> {
  const names = [...[...keep].map((id) => bad.nameOf(id)), ...also];
  const found = new Set(names.flatMap((name) => (name !== null && good.has(name) ? [good.id(name)] : [])));
  const between = [...neighbours(good.plan)].flatMap(([id, ends]) => {
    const name = good.nameOf(id);
    if (found.has(id) || name === null || bad.has(name)) return [];
    const here = ends.filter((end) => found.has(end));
    return new Set(here).size >= 2 || (here.length === 2 && ends.length === 2) || (isFeed(good.plan, id) && here.length > 0) ? [id] : [];
  });
  return new Set([...found, ...between]);
}

function isFeed(plan: Plan, id: Id): boolean {
  return plan.parts[id]!.kind.startsWith('feed-');
}

/** Parts at the other ends of a part's wires, one for each wire. */
function neighbours(plan: Plan): Map<Id, Id[]> {
  const next = new Map<Id, Id[]>();
  for (const { from, to } of Object.values(plan.wires)) {
    gather(next, from.part, to.part);
    gather(next, to.part, from.part);
  }
  return next;
}
