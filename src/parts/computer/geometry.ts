import type { Box, Pad, Primitive, SymbolDrawing } from '../../drawing/types.ts';
import { HEADER } from '../../trade/header.ts';
import { LINE_U, stroke } from '../symbols.ts';

/**
 * The computer's picture: a plain block with its 40-pin header, two columns of twenty cells as the hand sees them
 * from the wiring side. Wires of the odd column leave at the left edge, of the even column at the right edge.
 */
export const COMPUTER_W = 160;
/** Room above the first row for name and subtitle, and below the last for the USB ports. */
export const HEADER_TOP = 60;
const ROW = 20;
const CELL = 10;
export const COMPUTER_H = HEADER_TOP + 19 * ROW + 40;

const rowY = (pin: number): number => HEADER_TOP + Math.floor((pin - 1) / 2) * ROW;
const isOdd = (pin: number): boolean => pin % 2 === 1;

/** Header cells by pin number: the small square that a wire's plug covers, in the symbol's own coordinates. */
export const HEADER_CELLS: Readonly<Record<number, Box>> = Object.fromEntries(
  HEADER.map(({ pin }) => [pin, { x: isOdd(pin) ? COMPUTER_W / 2 - CELL - 3 : COMPUTER_W / 2 + 3, y: rowY(pin) - CELL / 2, w: CELL, h: CELL }]),
);

const USB_X = [20, 60, 100, 140];
/** Video leaves at the left, the power socket enters at the right, both above the header. */
const VIDEO_Y = 20;
const SOCKET_Y = { vbus: 20, '0v': 40 } as const;

/** Block, ports and hollow cells; the scene fills the cells that are wired. */
export function computerSymbol(socketFed: boolean): SymbolDrawing {
  const pads: Record<string, Pad> = {};
  for (const { pin } of HEADER) pads[`${pin}`] = isOdd(pin) ? { x: 0, y: rowY(pin), side: 'left' } : { x: COMPUTER_W, y: rowY(pin), side: 'right' };
  USB_X.forEach((x, i) => {
    pads[`usb${i + 1}`] = { x, y: COMPUTER_H, side: 'bottom' };
  });
  pads.video = { x: 0, y: VIDEO_Y, side: 'left' };
  if (socketFed) for (const [id, y] of Object.entries(SOCKET_Y)) pads[id] = { x: COMPUTER_W, y, side: 'right' };
  return { w: COMPUTER_W, h: COMPUTER_H, primitives: [...body(socketFed), ...HEADER.flatMap(({ pin, reserved }) => cell(pin, reserved !== undefined))], pads };
}

function body(socketFed: boolean): Primitive[] {
  const port = (pts: readonly number[]): Primitive => ({ t: 'line', pts, ink: 'ink', w: 4 });
  const frame = HEADER_CELLS[1]!;
  return [
    { t: 'rect', x: 0, y: 0, w: COMPUTER_W, h: COMPUTER_H, r: 4, fill: 'paper', ink: 'ink', lw: LINE_U },
    {
      t: 'rect',
      x: frame.x - 4,
      y: frame.y - 5,
      w: COMPUTER_W - 2 * (frame.x - 4),
      h: 19 * ROW + CELL + 10,
      r: 2,
      ink: 'soft',
      lw: 1,
    },
    ...USB_X.map((x) => port([x - 12, COMPUTER_H, x + 12, COMPUTER_H])),
    port([0, VIDEO_Y - 10, 0, VIDEO_Y + 10]),
    ...(socketFed ? [port([COMPUTER_W, SOCKET_Y.vbus - 7, COMPUTER_W, SOCKET_Y['0v'] + 7])] : []),
  ];
}

/** One cell: hollow; number 1 has a corner cut off, a reserved one is hatched. */
function cell(pin: number, reserved: boolean): Primitive[] {
  const { x, y, w, h } = HEADER_CELLS[pin]!;
  if (pin === 1) return [{ t: 'poly', pts: [x + 4, y, x + w, y, x + w, y + h, x, y + h, x, y + 4], ink: 'ink', lw: 1 }];
  const box: Primitive = { t: 'rect', x, y, w, h, r: 1, ink: 'ink', lw: 1 };
  if (!reserved) return [box];
  return [
    box,
    stroke([x, y + h / 2, x + w / 2, y], 'ink', 0.75),
    stroke([x, y + h, x + w, y], 'ink', 0.75),
    stroke([x + w / 2, y + h, x + w, y + h / 2], 'ink', 0.75),
  ];
}
