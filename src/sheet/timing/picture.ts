import type { KeyCycle } from '../../analysis/time/types.ts';
import type { Id } from '../../plan/types.ts';
import { AXIS_H, axis } from './axis.ts';
import { computerRow, KEY_H, keyBand, ROW_H } from './bands.ts';
import { endName, fiveH, fiveLane, NEEDS, supplyH, supplyLane } from './lanes.ts';
import { computersOf } from './moments.ts';
import { LEFT, type StripPiece, short, wordWidth } from './pieces.ts';
import { type TimeScale, timeScale } from './scale.ts';

const GAP = 6;
/** After cranking and after the door opens the axis keeps its scale a little longer, s. */
const CRANK_LOOK_S = 0.5;
const DOOR_LOOK_S = 5;

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
  return 10 + Math.max(...names.map((name) => wordWidth(short(name), true)));
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
  y += supplyH(cycle) + GAP;
  if (cycle.traces.some((t) => t.id === 'five')) {
    fiveLane(out, cycle, scale, y, x1, nameOf);
    y += fiveH(cycle) + GAP;
  }
  for (const part of computersOf(cycle)) {
    computerRow(out, cycle, part, scale, y, x1, nameOf);
    y += ROW_H + 4;
  }
  axis(out, scale, y, x1);
  return { primitives: out, scale, width, height: y + AXIS_H, top, bottom: y };
}
