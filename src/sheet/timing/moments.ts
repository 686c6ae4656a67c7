import type { ComputerState, CycleEvent, CycleTrace, KeyCycle } from '../../analysis/time/types.ts';
import type { Id, VehicleState } from '../../plan/types.ts';
import { STATE_WORDS } from '../words.ts';
import { COMPUTER_WORDS } from './words.ts';

/** One moment of the key cycle with its figures. */
export interface MomentRow {
  readonly tS: number;
  /** What happens: "Start, lowest battery", "Hold relay lets go". */
  readonly what: string;
  readonly key: VehicleState;
  /** In the order of the cycle's traces; NaN = no figure. */
  readonly volts: readonly number[];
  /** In the order of `computersOf`. */
  readonly computers: readonly ComputerState[];
}

/** Computers of a cycle in order of appearance. */
export function computersOf(cycle: KeyCycle): readonly Id[] {
  return [...new Set([...cycle.margins.map((m) => m.part), ...cycle.computers.map((c) => c.part)])];
}

/** What the other parts do by themselves; what a computer does is told by its own states. */
export function partEvents(cycle: KeyCycle): readonly CycleEvent[] {
  const computers = computersOf(cycle);
  return cycle.events.filter((e) => !computers.includes(e.part));
}

/** Volts of a trace at a time, between its points; NaN outside of it. */
export function voltsAt(trace: CycleTrace, tS: number): number {
  const { tS: times, volts } = trace;
  const last = times.length - 1;
  if (last < 0 || tS < times[0]! || tS > times[last]!) return Number.NaN;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if (times[mid]! <= tS) low = mid;
    else high = mid;
  }
  // At a jump two points share one time: the later one is what follows.
  if (times[high]! <= tS) return volts[high]!;
  const share = (tS - times[low]!) / (times[high]! - times[low]!);
  return volts[low]! + share * (volts[high]! - volts[low]!);
}

export function keyAt(cycle: KeyCycle, tS: number): VehicleState {
  return (cycle.key.find((k) => tS < k.toS) ?? cycle.key.at(-1))?.state ?? 'OFF_ASLEEP';
}

export function computerAt(cycle: KeyCycle, part: Id, tS: number): ComputerState {
  return cycle.computers.find((c) => c.part === part && tS >= c.fromS && tS < c.toS)?.state ?? 'off';
}

/** The state of everything at one time. */
export function rowAt(cycle: KeyCycle, tS: number, what: string): MomentRow {
  return {
    tS,
    what,
    key: keyAt(cycle, tS),
    volts: cycle.traces.map((trace) => voltsAt(trace, tS)),
    computers: computersOf(cycle).map((part) => computerAt(cycle, part, tS)),
  };
}

/** Two moments nearer than this are told in one line, s. */
const SAME_S = 0.005;

/**
 * Everything that happens, in order: the key, the door, the lowest point of cranking, computers, relays.
 * @param nameOf a part's name as the person knows it
 */
export function momentRows(cycle: KeyCycle, nameOf: (part: Id) => string): readonly MomentRow[] {
  const many = computersOf(cycle).length > 1;
  const found: { tS: number; what: string }[] = cycle.key.map((k) => ({ tS: k.fromS, what: STATE_WORDS[k.state] }));
  const { scenario } = cycle;
  for (const p of scenario.presses) found.push({ tS: p.atS, what: `${nameOf(p.part)} pressed` });
  const starts = cycle.key.filter((k) => k.state === 'START' || k.state === 'AUTO_CRANK');
  for (const start of starts) {
    const lowest = lowestOf(cycle, start.fromS, start.toS);
    if (lowest !== null) found.push({ tS: lowest, what: 'lowest battery' });
  }
  for (const span of cycle.computers) {
    if (span.fromS <= 0) continue;
    found.push({ tS: span.fromS, what: `${many ? nameOf(span.part) : 'computer'} ${COMPUTER_WORDS[span.state]}` });
  }
  for (const e of partEvents(cycle)) found.push({ tS: e.tS, what: e.label });
  found.sort((a, b) => a.tS - b.tS);
  const rows: { tS: number; what: string[] }[] = [];
  for (const { tS, what } of found) {
    const last = rows.at(-1);
    if (last && tS - last.tS < SAME_S) {
      if (!last.what.includes(what)) last.what.push(what);
    } else rows.push({ tS, what: [what] });
  }
  return rows.map(({ tS, what }) => rowAt(cycle, tS, capital(what.join(', '))));
}

function lowestOf(cycle: KeyCycle, fromS: number, toS: number): number | null {
  const battery = cycle.traces.find((t) => t.id === 'battery');
  if (!battery) return null;
  let at: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  battery.tS.forEach((tS, i) => {
    const v = battery.volts[i]!;
    if (tS >= fromS && tS <= toS && v < least) {
      least = v;
      at = tS;
    }
  });
  return at;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
