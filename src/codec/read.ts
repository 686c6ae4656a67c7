import { partKinds } from '../parts/index.ts';
import type { PartKind } from '../parts/types.ts';
import { inOrder } from '../plan/ids.ts';
import type { Plan } from '../plan/types.ts';
import { withoutDoubles } from './doubles.ts';
import { integrityProblems, leastSerial } from './integrity.ts';
import { migrated } from './migrations.ts';
import { type Problem, problemsOf } from './problems.ts';
import { CURRENT_VERSION, planSchema } from './schema.ts';

export type Read =
  | { readonly ok: true; readonly plan: Plan; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Longest text that is read, characters. */
export const LARGEST_TEXT = 5_000_000;

let schema: ReturnType<typeof planSchema> | undefined;

/** Reads a plan from the text of its file. Never throws: what is wrong comes back with its place, in plain words. */
export function readPlan(text: string): Read {
  if (text.length > LARGEST_TEXT) return whole('the text is longer than 5 MB, which no plan is');
  let raw: unknown;
  try {
    raw = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    return whole(`this is not JSON${lineOf(text, error)}`);
  }
  try {
    return readRaw(raw, partKinds);
  } catch (error) {
    // A part kind's own code may stumble over settings that its limits allow.
    return whole(`the plan could not be understood (${error instanceof Error ? error.message : String(error)})`);
  }
}

function readRaw(raw: unknown, kinds: ReadonlyMap<string, PartKind>): Read {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return whole('this is JSON, but not a plan');
  const found = raw as Readonly<Record<string, unknown>>;
  if (found.format !== 'dashloom-plan')
    return { ok: false, problems: [{ where: 'format', what: 'this is not a Dashloom plan: format must be “dashloom-plan”' }] };
  const { version } = found;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0) {
    return { ok: false, problems: [{ where: 'version', what: `must be a whole number from 0 to ${CURRENT_VERSION}` }] };
  }
  if (version > CURRENT_VERSION) {
    const what = `this plan is in format ${version}, from a newer edition; this edition reads up to ${CURRENT_VERSION}`;
    return { ok: false, problems: [{ where: 'version', what }] };
  }
  const up = migrated(found, version);
  schema ??= planSchema([...kinds.values()]);
  const parsed = schema.safeParse(up.raw);
  if (!parsed.success) return { ok: false, problems: problemsOf(parsed.error.issues, up.raw, kinds) };
  return checked(parsed.data as Plan, up.notes, kinds);
}

function checked(read: Plan, before: readonly string[], kinds: ReadonlyMap<string, PartKind>): Read {
  const problems = integrityProblems(read, kinds);
  if (problems.length > 0) return { ok: false, problems };
  const inside = withinZones(read);
  const single = withoutDoubles(inside.plan, kinds);
  const { plan } = single;
  const notes = [...before, ...inside.notes, ...single.notes];
  const least = leastSerial(plan);
  const told = plan.nextSerial < least ? [...notes, `The next free number was ${plan.nextSerial}, which is taken; it is now ${least}.`] : notes;
  return {
    ok: true,
    plan: {
      ...plan,
      zones: inOrder(plan.zones),
      runs: inOrder(plan.runs),
      parts: inOrder(plan.parts),
      wires: inOrder(plan.wires),
      nextSerial: Math.max(plan.nextSerial, least),
    },
    notes: told,
  };
}

/**
 * Parts may stand left of their zone or above it only in a hand-written file: on the drawing and on paper nobody would see
 * them. They are moved in to the edge, and a note says which.
 */
function withinZones(plan: Plan): { readonly plan: Plan; readonly notes: readonly string[] } {
  const out = Object.values(plan.parts).filter((p) => p.x < 0 || p.y < 0);
  if (out.length === 0) return { plan, notes: [] };
  const moved = Object.fromEntries(out.map((p) => [p.id, { ...p, x: Math.max(0, p.x), y: Math.max(0, p.y) }]));
  const who =
    out.length === 1 ? `Part ${out[0]?.id} stood outside its zone and was moved in.` : `${out.length} parts stood outside their zones and were moved in.`;
  return { plan: { ...plan, parts: { ...plan.parts, ...moved } }, notes: [who] };
}

function whole(what: string): Read {
  return { ok: false, problems: [{ where: '', what }] };
}

/** " (line 12)" when the engine says where it stopped; some give a line, some a position. */
function lineOf(text: string, error: unknown): string {
  const message = error instanceof Error ? error.message : '';
  const position = /position (\d+)/.exec(message)?.[1];
  const line = position === undefined ? /line (\d+)/.exec(message)?.[1] : text.slice(0, Number(position)).split('\n').length;
  return line === undefined ? '' : ` (line ${line})`;
}
