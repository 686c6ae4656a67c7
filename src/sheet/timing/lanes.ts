import type { CycleTrace, KeyCycle } from '../../analysis/time/types.ts';
import type { Ink } from '../../drawing/types.ts';
import type { Id } from '../../plan/types.ts';
import { BOARD_SUPPLY } from '../../trade/boards.ts';
import { voltsAt } from './moments.ts';
import { breakMark, LEFT, line, type StripPiece, short, text } from './pieces.ts';
import type { TimeScale } from './scale.ts';
import { END_WORDS } from './words.ts';

const SUPPLY_H = 46;
const FIVE_H = 38;
const LABEL_H = 13;
/** In the 5 V lane the volts at which a computer falls over lie low: what is decided above them is drawn larger. */
const FIVE_KNEE_V = BOARD_SUPPLY.warnMinV;
const FIVE_TOP_V = 5.4;
const KNEE_SHARE = 0.35;
export const NEEDS = `needs ${FIVE_KNEE_V} V`;

/** What stands at the end of a trace: with the part's name only where there are several of its kind. */
export function endName(cycle: KeyCycle, trace: CycleTrace, nameOf: (part: Id) => string): string {
  const plain = END_WORDS[trace.id];
  if (trace.part === null || cycle.traces.filter((t) => t.id === trace.id).length < 2) return plain;
  return trace.id === 'five' ? `5 V ${nameOf(trace.part)}` : nameOf(trace.part);
}

/** Height of the lane of battery and converter inputs: room for every name at its right. */
export function supplyH(cycle: KeyCycle): number {
  return Math.max(SUPPLY_H, LABEL_H * (cycle.traces.filter((t) => t.id !== 'five').length - 1));
}

/** Height of the 5 V lane, with the line of what is needed; its uppermost name keeps clear of the lane above. */
export function fiveH(cycle: KeyCycle): number {
  return Math.max(FIVE_H, LABEL_H * (cycle.traces.filter((t) => t.id === 'five').length + 1) - 5);
}

function gridLine(out: StripPiece[], label: string, y: number, x1: number): void {
  out.push(line([LEFT, y, x1, y], 'faint', 0.5, [2, 3]), text(LEFT - 5, y + 4, label, 'soft', 'end'));
}

/** Battery and converter inputs, from the top at `y` down. */
export function supplyLane(out: StripPiece[], cycle: KeyCycle, scale: TimeScale, y: number, x1: number, nameOf: (part: Id) => string): void {
  const height = supplyH(cycle);
  const traces = cycle.traces.filter((t) => t.id !== 'five');
  const most = Math.max(12, ...traces.flatMap((t) => [...t.volts]));
  const nominal = most > 20 ? 24 : 12;
  const topV = Math.max(nominal * 1.25, most);
  const at = (v: number): number => y + height * (1 - Math.max(0, v) / topV);
  gridLine(out, '0', at(0), x1);
  gridLine(out, `${nominal / 2}`, at(nominal / 2), x1);
  gridLine(out, `${nominal} V`, at(nominal), x1);
  const ends = traces.map((t) => ({ label: endName(cycle, t, nameOf), ...draw(out, t, scale, at, t.id === 'battery' ? 'vehicle' : 'ink', 1.6) }));
  endLabels(out, ends, x1, y, y + height);
}

/** 5 V at the computers; the axis changes its scale at what a computer needs. */
export function fiveLane(out: StripPiece[], cycle: KeyCycle, scale: TimeScale, y: number, x1: number, nameOf: (part: Id) => string): void {
  const height = fiveH(cycle);
  const knee = y + height * (1 - KNEE_SHARE);
  const at = (v: number): number => {
    const shown = Math.min(FIVE_TOP_V, Math.max(0, v));
    if (shown < FIVE_KNEE_V) return y + height - (shown / FIVE_KNEE_V) * height * KNEE_SHARE;
    return knee - ((shown - FIVE_KNEE_V) / (FIVE_TOP_V - FIVE_KNEE_V)) * (knee - y);
  };
  gridLine(out, '0', at(0), x1);
  gridLine(out, '5 V', at(5), x1);
  out.push(line([LEFT, knee, x1, knee], 'soft', 1, [6, 3]), text(LEFT - 7, knee + 4, `${FIVE_KNEE_V}`, 'soft', 'end'));
  breakMark(out, LEFT, knee, 'upright');
  const traces = cycle.traces.filter((t) => t.id === 'five');
  const ends = traces.map((t) => ({ label: endName(cycle, t, nameOf), ...draw(out, t, scale, at, 'accent', 2) }));
  endLabels(out, [...ends, { label: NEEDS, ink: 'soft', y: knee }], x1, y, y + height);
}

interface TraceEnd {
  readonly label: string;
  readonly ink: Ink;
  readonly y: number;
}

/** A trace as one line per unbroken piece; battery and computer side differ in ink and in weight. */
function draw(out: StripPiece[], trace: CycleTrace, scale: TimeScale, at: (v: number) => number, ink: Ink, w: number): Omit<TraceEnd, 'label'> {
  let pts: number[] = [];
  const flush = (): void => {
    if (pts.length >= 4) out.push(line(pts, ink, w, trace.id === 'input' ? [7, 2] : undefined));
    pts = [];
  };
  for (let i = 0; i < trace.tS.length; i++) {
    const v = trace.volts[i]!;
    if (!Number.isFinite(v)) {
      flush();
      continue;
    }
    const [x, y] = [scale.x(trace.tS[i]!), at(v)];
    // Points in one place add nothing.
    if (pts.length >= 2 && Math.abs(pts.at(-2)! - x) < 0.05 && Math.abs(pts.at(-1)! - y) < 0.05) continue;
    pts.push(x, y);
  }
  flush();
  const last = trace.tS.at(-1) ?? 0;
  const end = voltsAt(trace, last);
  return { ink, y: at(Number.isFinite(end) ? end : 0) };
}

/** Names at the ends of traces, moved apart where the traces end close together. */
function endLabels(out: StripPiece[], ends: readonly TraceEnd[], x1: number, top: number, bottom: number): void {
  const sorted = [...ends].sort((a, b) => a.y - b.y);
  const places: number[] = [];
  for (const end of sorted) places.push(Math.max(end.y, (places.at(-1) ?? top - LABEL_H) + LABEL_H));
  // Those that were pushed out below come back up, and push only whom they must.
  for (let i = places.length - 1, floor = bottom; i >= 0; i--, floor -= LABEL_H) {
    if (places[i]! <= floor) break;
    places[i] = floor;
  }
  sorted.forEach((end, i) => {
    const y = places[i]!;
    if (Math.abs(y - end.y) > 2) out.push(line([x1 + 1, end.y, x1 + 5, y], 'faint', 0.75));
    const ours = end.ink === 'ink' || end.ink === 'accent';
    out.push(text(x1 + 7, y + 4, short(end.label), ours ? end.ink : 'soft', 'start', ours));
  });
}
