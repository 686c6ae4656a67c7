import { viewsOf } from '../analysis/views.ts';
import { endKey, wiresAt } from '../plan/connect.ts';
import type { End, Id, Plan } from '../plan/types.ts';
import type { FoundRow } from './findRows.ts';
import { sensibleEnds, whyNot } from './sensibleEnds.ts';

/** A terminal as a person looks for it by typing. */
export interface EndRow extends FoundRow {
  readonly end: End;
  /** Item number and what stands at the terminal, in small letters: these mean it more than its title does (pin 1 is not GPIO 1). */
  readonly heads: readonly string[];
  /** Whatever else it may be called. */
  readonly words: readonly string[];
}

const wordsIn = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[\s,:·()]+/)
    .filter((w) => w !== '');

/** Every terminal of the plan in the order of making, those of chosen parts first. */
export function endRows(plan: Plan, chosen: readonly Id[] = []): readonly EndRow[] {
  const rows = [...viewsOf(plan)].flatMap(([id, view]) =>
    view.terminals.map((t): EndRow => {
      const end = { part: id, terminal: t.id };
      const place = plan.zones[view.part.zone]?.name ?? '';
      // Both ends of a fuse have no letter of their own: what they are for tells them apart.
      const face = t.label === '' || t.label === t.title ? t.title : `${t.label}: ${t.title}`;
      return {
        key: endKey(end),
        end,
        number: view.item,
        text: `${view.name} · ${face}`,
        place,
        heads: wordsIn(`${view.item} ${t.id} ${t.label}`),
        words: wordsIn(`${view.name} ${view.kind.title} ${t.title} ${place}`),
      };
    }),
  );
  return [...rows.filter((r) => chosen.includes(r.end.part)), ...rows.filter((r) => !chosen.includes(r.end.part))];
}

/** Where a wire from this end may go: what suits it best first, then whatever else it may join. */
export function otherEnds(plan: Plan, rows: readonly EndRow[], from: End): readonly EndRow[] {
  const byKey = new Map(rows.map((r) => [r.key, r]));
  const best = sensibleEnds(plan, from).flatMap((s) => byKey.get(endKey(s.end)) ?? []);
  const seen = new Set(best.map((r) => r.key));
  return [...best, ...rows.filter((r) => !seen.has(r.key) && whyNot(plan, from, r.end) === null)];
}

/**
 * Rows that fit what was typed, best first: every typed word must fit a word of the row, whole before beginning.
 * Equal rows stay in the order they came in, free terminals before wired ones when `plan` is given.
 */
export function findEnds(rows: readonly EndRow[], typed: string, plan?: Plan): readonly EndRow[] {
  const wanted = wordsIn(typed);
  const wired = plan ? wiresAt(plan).byTerminal : null;
  const free = (r: EndRow): number => (wired && (wired.get(r.key) ?? []).length > 0 ? 0 : 1);
  return rows
    .map((row) => ({ row, score: fitness(row, wanted) }))
    .filter((r) => r.score > 0 || wanted.length === 0)
    .sort((a, b) => b.score - a.score || (wanted.length > 0 ? free(b.row) - free(a.row) : 0))
    .map((r) => r.row);
}

/** How well a row fits all that was typed; 0 = a word does not fit. */
function fitness(row: EndRow, wanted: readonly string[]): number {
  const scores = wanted.map((w) => scoreOf(row, w));
  return scores.every((s) => s > 0) ? scores.reduce((a, b) => a + b, 0) : 0;
}

/**
 * Why the terminal that was meant takes no wire from here, in plain words; null = what was typed fits none better than
 * those that do. "out" must never fall through to "output return" because "out" is taken.
 */
export function refusal(plan: Plan, rows: readonly EndRow[], from: End, typed: string, found: readonly EndRow[]): string | null {
  const wanted = wordsIn(typed);
  const meant = findEnds(rows, typed)[0];
  if (wanted.length === 0 || !meant) return found.length === 0 ? (rows[0] ? whyNot(plan, from, rows[0].end) : null) : null;
  const best = found[0] ? fitness(found[0], wanted) : 0;
  return fitness(meant, wanted) > best ? whyNot(plan, from, meant.end) : null;
}

function scoreOf({ heads, words }: EndRow, wanted: string): number {
  if (heads.includes(wanted)) return 3;
  if (words.includes(wanted)) return 2;
  return [...heads, ...words].some((w) => w.startsWith(wanted)) ? 1 : 0;
}
