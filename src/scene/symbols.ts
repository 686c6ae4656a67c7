import { placePrimitive, turnPad, turnSize } from '../drawing/turn.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import { HEADER_CELLS } from '../parts/computer/geometry.ts';
import { settingsOf } from '../parts/definePart.ts';
import type { PartKind, TerminalDef } from '../parts/types.ts';
import type { Part } from '../plan/types.ts';
import { type Labelled, label } from './labels.ts';
import type { PlacedPad, PlacedPart } from './types.ts';

/** A picture with its label at one place. */
export type Look = Pick<LocalPart, 'primitives' | 'outside'>;

/** A part's picture with its labels, turned, in its own coordinates. */
export interface LocalPart {
  readonly w: number;
  readonly h: number;
  readonly primitives: readonly Primitive[];
  readonly pads: Readonly<Record<string, PlacedPad>>;
  readonly outside: readonly Box[];
  /** The same with its label at another place, best first; absent = it has one place only. */
  readonly others?: readonly Look[];
  readonly name: string;
  readonly item: string;
  /** Stands on the chassis bar of its zone. */
  readonly onBar: boolean;
  readonly kind: PartKind;
}

const memo = new WeakMap<Part, { readonly used: string; readonly local: LocalPart }>();
const GROUND = 'chassis-ground';

/**
 * The picture of one part.
 * @param used ids of its wired terminals, sorted and joined by commas: some symbols fill the cells in use
 */
export function localPart(part: Part, kind: PartKind, used: string): LocalPart {
  const known = memo.get(part);
  if (known && known.used === used) return known.local;
  const local = part.kind === GROUND ? ground(part, kind) : drawn(part, kind, used);
  memo.set(part, { used, local });
  return local;
}

function drawn(part: Part, kind: PartKind, used: string): LocalPart {
  const settings = settingsOf(kind, part.settings);
  const terminals = kind.terminals(settings);
  const symbol = kind.symbol(settings, terminals);
  const { w, h } = turnSize(symbol.w, symbol.h, part.turn);
  const pads: Record<string, PlacedPad> = {};
  for (const t of terminals) {
    const pad = symbol.pads[t.id];
    if (pad) pads[t.id] = { ...turnPad(pad, symbol.w, symbol.h, part.turn), label: t.label, form: t.form };
  }
  const turned = symbol.primitives.map((p) => placePrimitive(p, symbol.w, symbol.h, part.turn, 0, 0));
  const isInline = symbol.h <= 30 && Object.keys(symbol.pads).length <= 2;
  const subtitle = kind.subtitle?.(settings) ?? '';
  const wired = new Set(used.split(','));
  const isSplice = terminals.every((t) => t.form === 'splice');
  const labelled: Labelled = isSplice
    ? { primitives: [], outside: [] }
    : label({ w, h, primitives: turned, pads }, kind.title, part.name ?? '', subtitle, isInline, wired);
  const rings = isSplice ? [] : padRings(terminals, pads, wired, isInline);
  const body = [...turned, ...filledCells(terminals, wired, symbol.w, symbol.h, part.turn), ...rings];
  const mark = part.fitted ? [fittedMark(0, 0)] : [];
  const withLabel = ({ primitives, outside }: Labelled) => ({ primitives: [...body, ...primitives, ...mark], outside });
  return {
    w,
    h,
    ...withLabel(labelled),
    ...(labelled.others ? { others: labelled.others.map(withLabel) } : {}),
    pads,
    name: part.name ?? kind.title,
    item: kind.letter,
    onBar: false,
    kind,
  };
}

/** A filled corner: what is in the vehicle already. Shape alone tells it, so that it is seen without colours. */
export function fittedMark(x: number, y: number, size = 9): Primitive {
  return { t: 'poly', pts: [x, y, x + size, y, x, y + size], fill: 'ink' };
}

/** Small rings where wires may be joined, filled once joined; header cells are drawn by the computer itself. */
function padRings(terminals: readonly TerminalDef[], pads: Readonly<Record<string, PlacedPad>>, wired: ReadonlySet<string>, isInline: boolean): Primitive[] {
  return terminals.flatMap((t): Primitive[] => {
    const pad = pads[t.id];
    if (!pad || t.form === 'header' || t.form === 'splice') return [];
    if (isInline && wired.has(t.id)) return [];
    return [{ t: 'circle', x: pad.x, y: pad.y, r: 3, fill: wired.has(t.id) ? 'ink' : 'paper', ink: 'ink', lw: 1 }];
  });
}

/** Header cells that a wire's plug covers. */
function filledCells(terminals: readonly TerminalDef[], wired: ReadonlySet<string>, w: number, h: number, turn: Part['turn']): Primitive[] {
  return terminals.flatMap((t) => {
    const cell = t.form === 'header' && wired.has(t.id) ? HEADER_CELLS[Number(t.id)] : undefined;
    return cell ? [placePrimitive({ t: 'rect', ...cell, r: 1, fill: 'ink', ink: 'ink', lw: 1 }, w, h, turn, 0, 0)] : [];
  });
}

/** A ground is a stud on the chassis bar: a short lead and a ring. */
function ground(part: Part, kind: PartKind): LocalPart {
  const settings = settingsOf(kind, part.settings);
  const terminal = kind.terminals(settings)[0] as TerminalDef;
  const primitives: Primitive[] = [
    { t: 'line', pts: [20, 0, 20, 14], ink: part.owner === 'vehicle' ? 'vehicle' : 'ink', w: 2 },
    { t: 'circle', x: 20, y: 14, r: 5, fill: 'paper', ink: part.owner === 'vehicle' ? 'vehicle' : 'ink', lw: 1.5 },
    { t: 'circle', x: 20, y: 14, r: 1.5, fill: 'ink' },
    ...(part.fitted ? [fittedMark(6, 2)] : []),
    { t: 'text', x: 20, y: 41, text: part.name ?? terminal.label, size: 9, ink: 'soft', anchor: 'middle' },
  ];
  return {
    w: 40,
    h: 20,
    primitives,
    pads: { [terminal.id]: { x: 20, y: 0, side: 'top', label: terminal.label, form: terminal.form } },
    outside: [],
    name: part.name ?? kind.title,
    item: kind.letter,
    onBar: true,
    kind,
  };
}

/**
 * The local picture at a place in the world.
 * @param look the picture itself, or one with the label at another place
 */
export function placed(part: Part, local: LocalPart, x: number, y: number, look: Look = local): PlacedPart {
  const pads: Record<string, PlacedPad> = {};
  for (const [id, pad] of Object.entries(local.pads)) pads[id] = { ...pad, x: pad.x + x, y: pad.y + y };
  const shift = (b: Box): Box => ({ x: b.x + x, y: b.y + y, w: b.w, h: b.h });
  return {
    id: part.id,
    owner: part.owner,
    box: { x, y, w: local.w, h: local.h },
    primitives: look.primitives.map((p) => placePrimitive(p, local.w, local.h, 0, x, y)),
    pads,
    name: local.name,
    item: local.item,
    labels: look.outside.map(shift),
  };
}
