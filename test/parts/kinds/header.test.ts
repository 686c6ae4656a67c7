import { describe, expect, it } from 'vitest';
import { COMPUTER_W, computer, HEADER_CELLS } from '../../../src/parts/kinds/computer.ts';
import { settings } from '../situation.ts';

const s = settings(computer);
const terminals = computer.terminals(s);
const drawing = computer.symbol(s, terminals);

describe('the 40-pin header on the drawing', () => {
  it('stands in two columns of twenty seen from the wiring side: odd left, even right, 1 and 2 on top', () => {
    expect(Object.keys(HEADER_CELLS)).toHaveLength(40);
    for (let pin = 1; pin <= 40; pin++) {
      const cell = HEADER_CELLS[pin]!;
      expect([cell.w, cell.h]).toEqual([10, 10]);
      expect(cell.x + cell.w / 2 < COMPUTER_W / 2, `pin ${pin}`).toBe(pin % 2 === 1);
      if (pin > 2) expect(cell.y - HEADER_CELLS[pin - 2]!.y).toBe(20);
      if (pin % 2 === 0) expect(cell.y).toBe(HEADER_CELLS[pin - 1]!.y);
    }
    expect(HEADER_CELLS[1]!.y).toBeLessThan(HEADER_CELLS[39]!.y);
  });

  it('lets the wires of a cell leave at its own height on its own side', () => {
    for (let pin = 1; pin <= 40; pin++) {
      const pad = drawing.pads[`${pin}`]!;
      const cell = HEADER_CELLS[pin]!;
      expect(pad.y).toBe(cell.y + 5);
      expect(pad.x).toBe(pin % 2 === 1 ? 0 : drawing.w);
      expect(pad.y % 20).toBe(0);
    }
  });

  it('marks cell 1 by a cut corner and hatches the two reserved cells only', () => {
    const inside = (pin: number) => {
      const c = HEADER_CELLS[pin]!;
      return drawing.primitives.filter(
        (p) =>
          (p.t === 'rect' && p.x >= c.x && p.y >= c.y && p.x + p.w <= c.x + c.w && p.y + p.h <= c.y + c.h) ||
          ((p.t === 'line' || p.t === 'poly') && p.pts.every((v, i) => (i % 2 === 0 ? v >= c.x && v <= c.x + c.w : v >= c.y && v <= c.y + c.h))),
      );
    };
    expect(inside(1).map((p) => p.t)).toEqual(['poly']);
    for (let pin = 2; pin <= 40; pin++) expect(inside(pin).length, `pin ${pin}`).toBe(pin === 27 || pin === 28 ? 4 : 1);
  });

  it('leaves every cell unfilled: the drawing of the plan fills those in use', () => {
    expect(drawing.primitives.slice(1).every((p) => !('fill' in p) || p.fill === undefined)).toBe(true);
  });

  it('names rails and GPIOs as on the real header (pin positions from memory of the board maker’s pin chart)', () => {
    const title = (pin: number) => terminals.find((t) => t.id === `${pin}`)?.title;
    const role = (pin: number) => terminals.find((t) => t.id === `${pin}`)?.role;
    for (const pin of [2, 4]) expect(role(pin)).toBe('rail5');
    for (const pin of [1, 17]) expect(role(pin)).toBe('rail3');
    for (const pin of [6, 9, 14, 20, 25, 30, 34, 39]) expect(role(pin)).toBe('ground');
    expect(title(11)).toBe('Pin 11, GPIO 17');
    expect(title(36)).toBe('Pin 36, GPIO 16');
    expect(title(40)).toBe('Pin 40, GPIO 21');
    expect(title(27)).toMatch(/GPIO 0, reserved/);
    expect(terminals.filter((t) => t.form === 'header')).toHaveLength(40);
  });
});
