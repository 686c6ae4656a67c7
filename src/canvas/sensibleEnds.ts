import { settingsOf } from '../parts/definePart.ts';
import { partKind } from '../parts/index.ts';
import { PAIRED_FORMS, type TerminalDef, type TerminalForm, type TerminalRole } from '../parts/types.ts';
import { endKey, wiresAt } from '../plan/connect.ts';
import type { End, Id, Part, Plan } from '../plan/types.ts';

/** An end that a wire from the chosen terminal may sensibly go to, best first. */
export interface SensibleEnd {
  readonly end: End;
  readonly part: Part;
  readonly terminal: TerminalDef;
  /** Higher is better; only the order means anything. */
  readonly score: number;
}

const termsMemo = new WeakMap<Part, readonly TerminalDef[]>();

/** Terminals of a part as it is set now. */
export function terminalsOf(part: Part): readonly TerminalDef[] {
  let list = termsMemo.get(part);
  if (!list) {
    const kind = partKind(part.kind);
    list = kind.terminals(settingsOf(kind, part.settings));
    termsMemo.set(part, list);
  }
  return list;
}

export function terminalOf(plan: Plan, end: End): TerminalDef | null {
  const part = plan.parts[end.part];
  return part ? (terminalsOf(part).find((t) => t.id === end.terminal) ?? null) : null;
}

/** Steps that a role is carried through parts that take any role (fuse, resistor, splice). */
const FAR = 8;

/** What a terminal stands for: its own role, or, where it takes any, the role of what it is joined to. */
export function roleOf(plan: Plan, end: End): TerminalRole {
  const seen = new Set<string>();
  let front: End[] = [end];
  for (let step = 0; step < FAR && front.length > 0; step++) {
    const next: End[] = [];
    for (const at of front) {
      const key = endKey(at);
      if (seen.has(key)) continue;
      seen.add(key);
      const terminal = terminalOf(plan, at);
      if (!terminal) continue;
      if (terminal.role !== 'any') return terminal.role;
      for (const wire of wiresAt(plan).byTerminal.get(key) ?? []) next.push(endKey(wire.from) === key ? wire.to : wire.from);
      // A part with two such ends sits in a wire and carries the role on.
      const part = plan.parts[at.part] as Part;
      const others = terminalsOf(part).filter((t) => t.id !== at.terminal);
      if (others.length === 1 && others[0]?.role === 'any') next.push({ part: part.id, terminal: others[0].id });
    }
    front = next;
  }
  return 'any';
}

/** How well two roles go together: 0 = never. Common practice, no source. */
function roleScore(a: TerminalRole, b: TerminalRole): number {
  if (a === b) return a === 'any' ? 3 : 10;
  if (a === 'any' || b === 'any') return 5;
  const pair = new Set<TerminalRole>([a, b]);
  const both = (x: TerminalRole, y: TerminalRole) => pair.has(x) && pair.has(y);
  if (pair.has('coil') && (pair.has('supply') || pair.has('ground') || pair.has('signal'))) return 7;
  if (both('signal', 'ground') || both('signal', 'rail3')) return 4;
  if (both('signal', 'supply')) return 2;
  if (both('audio-ground', 'ground') || both('video-ground', 'ground')) return 3;
  return 0;
}

/** Forms that take one plug; studs, screws, blades and splices take several wires. */
const ONE_PLUG: ReadonlySet<TerminalForm> = new Set<TerminalForm>(['header', 'usb', 'jack', 'video', 'socket']);

/** Does the terminal still take a wire? */
export function takesWire(plan: Plan, end: End): boolean {
  const terminal = terminalOf(plan, end);
  return terminal !== null && (!ONE_PLUG.has(terminal.form) || (wiresAt(plan).byTerminal.get(endKey(end)) ?? []).length === 0);
}

/** Why a wire may not join these two ends, in plain words; null = it may. */
export function whyNot(plan: Plan, a: End, b: End): string | null {
  const [from, to] = [terminalOf(plan, a), terminalOf(plan, b)];
  if (!from || !to) return 'That terminal is not there any more.';
  if (endKey(a) === endKey(b)) return 'A wire needs two different ends.';
  const joined = (wiresAt(plan).byTerminal.get(endKey(a)) ?? []).some((w) => endKey(w.from) === endKey(b) || endKey(w.to) === endKey(b));
  if (joined) return 'These two terminals are joined already.';
  const full = [from, to].find((_, i) => !takesWire(plan, i === 0 ? a : b));
  if (full)
    return full.form === 'header' ? 'A header cell takes one wire. Join wires in a splice or terminal strip before it.' : 'That socket has its plug already.';
  if (PAIRED_FORMS.has(from.form) && PAIRED_FORMS.has(to.form) && from.form !== to.form) return `A ${from.form} plug does not fit a ${to.form} socket.`;
  return null;
}

/**
 * Sensible ends for a wire that starts at a terminal, best first: matching role, power flowing out of one into the
 * other, same volts, free terminals before used ones, near before far.
 */
export function sensibleEnds(plan: Plan, from: End): readonly SensibleEnd[] {
  const start = terminalOf(plan, from);
  if (!start) return [];
  const role = roleOf(plan, from);
  const here = plan.parts[from.part] as Part;
  const wired = wiresAt(plan).byTerminal;
  const order = zoneRank(plan);
  const found: SensibleEnd[] = [];
  const fromTap = here.owner === 'vehicle' && start.flow === 'out';
  for (const part of Object.values(plan.parts)) {
    if (part.id === from.part) continue;
    // Two leads of the vehicle are never joined through the build, and a lead's own side only meets the vehicle.
    if (fromTap && part.owner === 'vehicle') continue;
    for (const terminal of terminalsOf(part)) {
      const end = { part: part.id, terminal: terminal.id };
      if (PAIRED_FORMS.has(start.form) !== PAIRED_FORMS.has(terminal.form)) continue;
      if (whyNot(plan, from, end) !== null) continue;
      const fit = roleScore(role, terminal.role === 'any' ? roleOf(plan, end) : terminal.role);
      if (fit === 0 || differs(start.nominalV, terminal.nominalV)) continue;
      if (part.owner === 'vehicle' && terminal.flow === 'in' && here.owner !== 'vehicle') continue;
      const free = (wired.get(endKey(end)) ?? []).length === 0;
      const zones = Math.abs((order.get(part.zone) ?? 0) - (order.get(here.zone) ?? 0));
      const away = zones === 0 ? Math.hypot(part.x - here.x, part.y - here.y) / 1000 : 1;
      const fuseFirst = fromTap && free && isFuse(part) ? 12 : 0;
      const score = fit + flowScore(start, terminal) + fuseFirst + (free ? 2 : 0) + (free && terminal.required ? 1 : 0) - zones - Math.min(1, away);
      if (score > 0) found.push({ end, part, terminal, score });
    }
  }
  return oncePerName(found.sort((a, b) => b.score - a.score || (endKey(a.end) < endKey(b.end) ? -1 : 1)));
}

/** A fuse belongs right behind a tap, so it comes first there. */
function isFuse(part: Part): boolean {
  const kind = partKind(part.kind);
  return (kind.facts(settingsOf(kind, part.settings)).links ?? []).some((l) => l.type === 'fuse');
}

/** Ends that a person could not tell apart (both ends of a resistor) stand once. */
function oncePerName(ends: readonly SensibleEnd[]): SensibleEnd[] {
  const seen = new Set<string>();
  return ends.filter(({ part, terminal }) => {
    if (terminal.label !== '') return true;
    const first = !seen.has(part.id);
    seen.add(part.id);
    return first;
  });
}

function flowScore(a: TerminalDef, b: TerminalDef): number {
  if (!a.flow || !b.flow) return 0;
  return a.flow === b.flow ? -4 : 3;
}

function differs(a: number | undefined, b: number | undefined): boolean {
  return a !== undefined && b !== undefined && Math.abs(a - b) > 0.2 * Math.max(Math.abs(a), Math.abs(b));
}

function zoneRank(plan: Plan): ReadonlyMap<Id, number> {
  const sorted = Object.values(plan.zones).sort((a, b) => a.order - b.order);
  return new Map(sorted.map((z, i) => [z.id, i]));
}

/** "Step-down, in" in words for lists and screen readers. */
export function endText(part: Part, terminal: TerminalDef): string {
  const name = part.name ?? partKind(part.kind).title;
  return terminal.label === '' ? name : `${name} · ${terminal.label}`;
}
