import type { EventReport, KeyCycle, WorstMargin } from '../analysis/time/types.ts';
import { textWidth } from '../drawing/text.ts';
import type { Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { Context } from './context.ts';
import { eventsTable } from './eventsTable.ts';
import { fallingVolts } from './figures.ts';
import { type Column, type Html, h, raw, section, table } from './markup.ts';
import { svgOf } from './svg.ts';
import { labelRows } from './timing/axis.ts';
import { computersOf, momentRows, partEvents } from './timing/moments.ts';
import { rightRoom, type StripPicture, scaleOf, stripPicture } from './timing/picture.ts';
import { COMPUTER_WORDS, crankAnswer, stopAnswer, stuckText, timeText } from './timing/words.ts';
import { STATE_WORDS } from './words.ts';

/** What was computed in time, for the sheet. */
export interface SheetTime {
  readonly cycle: KeyCycle;
  /** Worst case of every computer; null when it was not worked out. */
  readonly margins: readonly WorstMargin[] | null;
  /** What events of the supply do to the parts; absent when they were not worked out. */
  readonly events?: readonly EventReport[] | null;
}

/** Drawing units across the page; at this width the strip's letters print at 8 pt. */
const WIDTH = 720;
const WIDTH_MM = 186;
const NAME_SIZE = 11;
const ROW_H = 15;
const ROWS = 3;
/** Ids of the drawings of the plan are numbered from 1: the strip stays clear of them. */
const SERIAL = 900;

/** The key cycle in print: what it comes to in a sentence, the strip in black and white, and the same as figures. */
export function timingSection(context: Context, { cycle, margins, events }: SheetTime): Html {
  if (cycle.outcome === 'cancelled') return raw('');
  const name = naming(context);
  const isPowered = (part: Id): boolean => context.deviceOn(part, 'powered', 'RUN_CHARGING') !== false;
  const stop = margins ? stopAnswer(margins, name, isPowered) : null;
  const crank = crankAnswer(margins ?? cycle.margins);
  const says = [...(stop ? [stop.detail === '' ? stop.text : `${stop.text} (${stop.detail})`] : []), ...(crank ? [`the computer ${crank.text}`] : [])];
  const trouble = stuckText(cycle);
  const stuck = trouble === null ? raw('') : h`<p>${trouble}</p>`;
  return section(
    'One turn of the key',
    h`<div class="apart"><p>${says.map((text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`).join(' ')}</p>
${stuck}
<p class="small">For ${cycle.scenario.band} supply. Two strokes across an axis: its scale changes there.</p>
${raw(strip(cycle, name))}</div>
${moments(context, cycle, name)}
${events ? eventsTable(context, events) : raw('')}`,
  );
}

/** A part by its name; by its item number as well where another is called the same. */
function naming(context: Context): (part: Id) => string {
  const times = new Map<string, number>();
  for (const view of context.views.values()) times.set(view.name, (times.get(view.name) ?? 0) + 1);
  return (part) => {
    const view = context.views.get(part);
    return view === undefined ? part : (times.get(view.name) ?? 0) > 1 ? context.label(part) : view.name;
  };
}

function strip(cycle: KeyCycle, name: (part: Id) => string): string {
  const scale = scaleOf(cycle, WIDTH, rightRoom(cycle, name));
  const picture = stripPicture(cycle, scale, WIDTH, name);
  const named = names(cycle, picture, name);
  const height = picture.height + named.rows * ROW_H;
  return svgOf([...named.primitives, ...picture.primitives], {
    view: { x: 0, y: 0, w: WIDTH, h: height },
    title: 'Key positions, volts and computer against time; the table below has the same figures',
    widthMm: WIDTH_MM,
    heightMm: (height * WIDTH_MM) / WIDTH,
    serial: SERIAL,
  });
}

/** Upright lines at the key, door and buttons, and names for them and for what the parts do by themselves. */
function names(cycle: KeyCycle, picture: StripPicture, name: (part: Id) => string): { readonly primitives: readonly Primitive[]; readonly rows: number } {
  const { scenario } = cycle;
  const { scale } = picture;
  const byHand = [
    { tS: scenario.startS, text: 'start' },
    { tS: scenario.keyOffS, text: 'key off' },
    ...(scenario.doorS === null ? [] : [{ tS: scenario.doorS, text: 'door' }]),
    ...(scenario.keyBackS === null ? [] : [{ tS: scenario.keyBackS, text: 'key back' }]),
    ...scenario.presses.map((p) => ({ tS: p.atS, text: name(p.part) })),
  ];
  const labels = [...byHand, ...partEvents(cycle).map((e) => ({ tS: e.tS, text: e.label }))].map((l) => {
    const x = scale.x(l.tS);
    const w = textWidth(l.text, NAME_SIZE, true) + 10;
    const isLeft = x + w > WIDTH;
    return { ...l, x, isLeft, from: isLeft ? x - w : x, to: isLeft ? x : x + w };
  });
  const rows = labelRows(labels, ROWS);
  const out: Primitive[] = [];
  labels.forEach((l, i) => {
    const row = rows[i] ?? null;
    const hand = i < byHand.length;
    if (hand) out.push({ t: 'line', pts: [l.x, picture.top - 6, l.x, picture.bottom], ink: 'ink', w: 1, dash: [3, 3] });
    if (row === null) return;
    const y = picture.height + row * ROW_H;
    out.push({ t: 'line', pts: [l.x, picture.bottom + 4, l.x, y + 11], ink: 'faint', w: 0.75 });
    out.push({
      t: 'text',
      x: l.isLeft ? l.x - 4 : l.x + 4,
      y: y + 10,
      text: l.text,
      size: NAME_SIZE,
      ink: 'ink',
      bold: hand,
      anchor: l.isLeft ? 'end' : 'start',
    });
  });
  return { primitives: out, rows: Math.max(0, ...rows.map((r) => (r ?? -1) + 1)) };
}

function moments(context: Context, cycle: KeyCycle, name: (part: Id) => string): Html {
  const computers = computersOf(cycle);
  // With several computers the width goes to their volts; where the key stands is told by its own moments.
  const isWide = computers.length > 1;
  const columns: Column[] = [
    isWide ? { title: 'Moment', widthMm: 44 } : { title: 'Moment' },
    { title: 'Time', kind: 'n' },
    ...(isWide ? [] : [{ title: 'Key', kind: 'keep' as const }]),
    ...cycle.traces.map((t): Column => ({ title: t.label, kind: 'n' })),
    ...computers.map((part): Column => ({ title: context.label(part) })),
  ];
  const rows = momentRows(cycle, name).map((row) => [
    row.what,
    timeText(row.tS),
    ...(isWide ? [] : [STATE_WORDS[row.key]]),
    ...row.volts.map(fallingVolts),
    ...row.computers.map((state) => COMPUTER_WORDS[state]),
  ]);
  return table('One turn of the key', columns, rows);
}
