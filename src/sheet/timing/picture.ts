import type { ComputerSpan, CycleTrace, KeyCycle } from '../../analysis/time/types.ts';
import { textWidth } from '../../drawing/text.ts';
import type { Ink, Primitive } from '../../drawing/types.ts';
import type { Id } from '../../plan/types.ts';
import { BOARD_SUPPLY } from '../../trade/boards.ts';
import { STATE_WORDS } from '../words.ts';
import { computersOf, voltsAt } from './moments.ts';
import { type TimeScale, timeScale } from './scale.ts';
import { COMPUTER_WORDS, END_WORDS } from './words.ts';

/** Room to the left of the plot for the volts, to the right for the names of traces, drawing units. */
export const LEFT = 34;
const SIZE = 11;
const KEY_H = 18;
const SUPPLY_H = 46;
const FIVE_H = 38;
const ROW_H = 17;
const GAP = 6;
const AXIS_H = 22;
/** In the 5 V lane the volts at which a computer falls over lie low: what is decided above them is drawn larger. */
const FIVE_KNEE_V = BOARD_SUPPLY.warnMinV;
const FIVE_TOP_V = 5.4;
const KNEE_SHARE = 0.35;
/** After cranking and after the door opens the axis keeps its scale a little longer, s. */
const CRANK_LOOK_S = 0.5;
const DOOR_LOOK_S = 5;

/** The strip needs no more than these. */
export type StripPiece = Extract<Primitive, { readonly t: 'line' | 'rect' | 'text' }>;

/** What stands at the end of a trace: with the part's name only where there are several of its kind. */
function endName(cycle: KeyCycle, trace: CycleTrace, nameOf: (part: Id) => string): string {
  const plain = END_WORDS[trace.id];
  if (trace.part === null || cycle.traces.filter((t) => t.id === trace.id).length < 2) return plain;
  return trace.id === 'five' ? `5 V ${nameOf(trace.part)}` : nameOf(trace.part);
}

const NEEDS = `needs ${FIVE_KNEE_V} V`;

export interface StripPicture {
  readonly primitives: readonly StripPiece[];
  readonly scale: TimeScale;
  readonly width: number;
  /** Down to the foot of the axis. */
  readonly height: number;
  /** The plot proper: where moments stand as upright lines. */
  readonly top: number;
  readonly bottom: number;
}

/** Everything that may fix a change of scale or keep a stretch from being squeezed. */
export function scaleOf(cycle: KeyCycle, width: number, right: number): TimeScale {
  const { scenario } = cycle;
  const crank = cycle.key.filter((k) => k.state === 'START');
  const { keyOffS, keyBackS, doorS } = scenario;
  const cuts = [
    ...crank.flatMap((k) => [k.fromS, k.toS + CRANK_LOOK_S]),
    keyOffS,
    ...(doorS === null ? [] : [doorS + DOOR_LOOK_S]),
    ...(keyBackS === null ? [] : [keyBackS]),
  ];
  const moments = [
    ...cycle.key.map((k) => k.fromS),
    ...cycle.computers.map((c) => c.fromS),
    ...cycle.events.map((e) => e.tS),
    ...scenario.presses.flatMap((p) => [p.atS, p.atS + p.forS]),
    ...(doorS === null ? [] : [doorS]),
  ];
  return timeScale(cuts, moments, scenario.untilS, LEFT, width - right);
}

/** Room that the names of traces take to the right, drawing units. */
export function rightRoom(cycle: KeyCycle, nameOf: (part: Id) => string): number {
  const names = [...cycle.traces.map((t) => endName(cycle, t, nameOf)), ...computersOf(cycle).map(nameOf), NEEDS];
  return 10 + Math.max(...names.map((name) => textWidth(short(name), SIZE, true)));
}

/** One turn of the key as a picture. Nothing in it depends on a colour: traces differ in weight and dash and have their name at their end. */
export function stripPicture(cycle: KeyCycle, scale: TimeScale, width: number, nameOf: (part: Id) => string): StripPicture {
  const out: StripPiece[] = [];
  const x1 = scale.stretches.at(-1)!.x1;
  let y = 1;
  keyBand(out, cycle, scale, y);
  y += KEY_H + GAP;
  const top = y;
  supplyLane(out, cycle, scale, y, x1, nameOf);
  y += SUPPLY_H + GAP;
  if (cycle.traces.some((t) => t.id === 'five')) {
    fiveLane(out, cycle, scale, y, x1, nameOf);
    y += FIVE_H + GAP;
  }
  for (const part of computersOf(cycle)) {
    computerRow(out, cycle, part, scale, y, x1, nameOf);
    y += ROW_H + 4;
  }
  axis(out, scale, y, x1);
  return { primitives: out, scale, width, height: y + AXIS_H, top, bottom: y };
}

const text = (x: number, y: number, value: string, ink: Ink, anchor: 'start' | 'middle' | 'end', bold = false): StripPiece => ({
  t: 'text',
  x,
  y,
  text: value,
  size: SIZE,
  ink,
  anchor,
  bold,
});
const line = (pts: readonly number[], ink: Ink, w: number, dash?: readonly number[]): StripPiece => ({ t: 'line', pts, ink, w, ...(dash ? { dash } : {}) });

function keyBand(out: StripPiece[], cycle: KeyCycle, scale: TimeScale, y: number): void {
  cycle.key.forEach((span, i) => {
    const [a, b] = [scale.x(span.fromS), scale.x(span.toS)];
    if (b - a < 0.5) return;
    out.push({ t: 'rect', x: a, y, w: b - a, h: KEY_H, fill: i % 2 === 0 ? 'zone-a' : 'zone-b', ink: 'faint', lw: 0.75 });
    const word = STATE_WORDS[span.state];
    if (textWidth(word, SIZE, true) + 6 <= b - a) out.push(text((a + b) / 2, y + KEY_H - 5, word, 'ink', 'middle', true));
  });
}

function gridLine(out: StripPiece[], label: string, y: number, x1: number): void {
  out.push(line([LEFT, y, x1, y], 'faint', 0.5, [2, 3]), text(LEFT - 5, y + 4, label, 'soft', 'end'));
}

function supplyLane(out: StripPiece[], cycle: KeyCycle, scale: TimeScale, y: number, x1: number, nameOf: (part: Id) => string): void {
  const traces = cycle.traces.filter((t) => t.id !== 'five');
  const most = Math.max(12, ...traces.flatMap((t) => [...t.volts]));
  const nominal = most > 20 ? 24 : 12;
  const topV = Math.max(nominal * 1.25, most);
  const at = (v: number): number => y + SUPPLY_H * (1 - Math.max(0, v) / topV);
  gridLine(out, '0', at(0), x1);
  gridLine(out, `${nominal / 2}`, at(nominal / 2), x1);
  gridLine(out, `${nominal} V`, at(nominal), x1);
  const ends = traces.map((t) => ({ label: endName(cycle, t, nameOf), ...draw(out, t, scale, at, t.id === 'battery' ? 'vehicle' : 'ink', 1.6) }));
  endLabels(out, ends, x1, y, y + SUPPLY_H);
}

function fiveLane(out: StripPiece[], cycle: KeyCycle, scale: TimeScale, y: number, x1: number, nameOf: (part: Id) => string): void {
  const knee = y + FIVE_H * (1 - KNEE_SHARE);
  const at = (v: number): number => {
    const shown = Math.min(FIVE_TOP_V, Math.max(0, v));
    if (shown < FIVE_KNEE_V) return y + FIVE_H - (shown / FIVE_KNEE_V) * FIVE_H * KNEE_SHARE;
    return knee - ((shown - FIVE_KNEE_V) / (FIVE_TOP_V - FIVE_KNEE_V)) * (knee - y);
  };
  gridLine(out, '0', at(0), x1);
  gridLine(out, '5 V', at(5), x1);
  out.push(line([LEFT, knee, x1, knee], 'soft', 1, [6, 3]), text(LEFT - 7, knee + 4, `${FIVE_KNEE_V}`, 'soft', 'end'));
  breakMark(out, LEFT, knee, 'upright');
  const traces = cycle.traces.filter((t) => t.id === 'five');
  const ends = traces.map((t) => ({ label: endName(cycle, t, nameOf), ...draw(out, t, scale, at, 'accent', 2) }));
  endLabels(out, [...ends, { label: NEEDS, ink: 'soft', y: knee }], x1, y, y + FIVE_H);
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

const LABEL_H = 12;

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

/** A name that does not push the plot off a small screen. */
function short(name: string): string {
  return name.length > 18 ? `${name.slice(0, 17)}…` : name;
}

function computerRow(out: StripPiece[], cycle: KeyCycle, part: Id, scale: TimeScale, y: number, x1: number, nameOf: (part: Id) => string): void {
  out.push(line([LEFT, y + ROW_H / 2, x1, y + ROW_H / 2], 'faint', 0.75));
  out.push(text(x1 + 7, y + ROW_H - 5, short(nameOf(part)), 'ink', 'start'));
  for (const span of cycle.computers) if (span.part === part) bar(out, span, scale, y);
}

/** A stretch of one state: solid while up, a strong edge while it boots or stops, crossed out where it fell over. */
function bar(out: StripPiece[], span: ComputerSpan, scale: TimeScale, y: number): void {
  if (span.state === 'off') return;
  const x = scale.x(span.fromS);
  const w = Math.max(span.state === 'browned out' ? 3 : 0.75, scale.x(span.toS) - x);
  const word = COMPUTER_WORDS[span.state];
  const fits = textWidth(word, SIZE, true) + 6 <= w;
  const put = (fill: Ink, ink: Ink, lw: number): void => {
    out.push({ t: 'rect', x, y, w, h: ROW_H, r: Math.min(2, w / 2), fill, ink, lw });
  };
  switch (span.state) {
    case 'up':
      put('accent', 'accent', 1);
      break;
    case 'browned out':
      put('hazard', 'hazard', 1);
      for (let at = x + 4; at < x + w - 6 && !fits; at += 6) out.push(line([at, y + 2, at + 4, y + ROW_H - 2], 'paper', 1));
      break;
    case 'booting':
    case 'stopping':
      put('paper', 'ink', 1.5);
      for (let at = x + 5; at < x + w - 2 && !fits; at += 7) out.push(line([at, y + ROW_H - 2, Math.min(x + w - 2, at + 3), y + ROW_H - 5], 'soft', 0.75));
      break;
    default:
      put('paper', 'faint', 0.75);
  }
  if (fits) {
    const ink: Ink = span.state === 'up' || span.state === 'browned out' ? 'paper' : span.state === 'halted' ? 'soft' : 'ink';
    out.push(text(x + w / 2, y + ROW_H - 5, word, ink, 'middle', true));
  }
}

function axis(out: StripPiece[], scale: TimeScale, y: number, x1: number): void {
  out.push(line([LEFT, y, x1, y], 'soft', 1));
  for (const tick of scale.ticks) {
    out.push(line([tick.x, y, tick.x, y + 4], 'soft', 1));
    const half = textWidth(tick.label, SIZE) / 2;
    const x = Math.min(Math.max(tick.x, LEFT + half - 8), x1 - half + 8);
    out.push(text(x, y + 15, tick.label, 'soft', 'middle'));
  }
  for (const s of scale.stretches) {
    if (s.squeezed) out.push({ t: 'rect', x: s.x0, y: y - 2.5, w: s.x1 - s.x0, h: 5, fill: 'paper' }, line([s.x0, y, s.x1, y], 'soft', 1, [2, 3]));
  }
  for (const x of scale.breaks) breakMark(out, x, y, 'level');
}

/** Two short strokes across an axis: the scale changes here. */
function breakMark(out: StripPiece[], x: number, y: number, axis: 'level' | 'upright'): void {
  const strokes =
    axis === 'level' ? [-1.5, 1.5].map((d) => [x + d - 2, y + 4, x + d + 2, y - 4]) : [-1.5, 1.5].map((d) => [x - 4, y + d + 2, x + 4, y + d - 2]);
  for (const pts of strokes) out.push(line(pts, 'ink', 1));
}

/** Room that one name takes under the axis, drawing units. */
export interface Label {
  readonly from: number;
  readonly to: number;
}

/**
 * Rows for names under moments, so that none covers another. Earlier ones choose first.
 * @returns for each label the first row where it fits, or null where none has room
 */
export function labelRows(labels: readonly Label[], rows: number): readonly (number | null)[] {
  const taken: Label[][] = Array.from({ length: rows }, () => []);
  return labels.map((label) => {
    const row = taken.findIndex((others) => others.every((o) => o.to <= label.from || label.to <= o.from));
    if (row < 0) return null;
    taken[row]!.push(label);
    return row;
  });
}
