import type { Box } from './types.ts';

/**
 * Grid index for hit tests and culling: items by box, in cells of 100 u. Built once per scene; `near` answers with
 * each item once, in the order in which they were added.
 */
export class GridIndex<T> {
  private readonly cells = new Map<number, number[]>();
  private readonly items: T[] = [];
  private readonly boxes: Box[] = [];
  private readonly stamp: number[] = [];
  private round = 0;

  constructor(private readonly cell = 100) {}

  add(item: T, box: Box): void {
    const n = this.items.length;
    this.items.push(item);
    this.boxes.push(box);
    this.stamp.push(0);
    this.eachCell(box, (key) => {
      const list = this.cells.get(key);
      if (list) list.push(n);
      else this.cells.set(key, [n]);
    });
  }

  /** Items whose box meets the given one (edges included). */
  near(box: Box): T[] {
    this.round++;
    const found: number[] = [];
    this.eachCell(box, (key) => {
      for (const n of this.cells.get(key) ?? []) {
        if (this.stamp[n] === this.round) continue;
        this.stamp[n] = this.round;
        const b = this.boxes[n] as Box;
        if (b.x <= box.x + box.w && box.x <= b.x + b.w && b.y <= box.y + box.h && box.y <= b.y + b.h) found.push(n);
      }
    });
    return found.sort((a, b) => a - b).map((n) => this.items[n] as T);
  }

  private eachCell(box: Box, visit: (key: number) => void): void {
    const c0 = Math.floor(box.x / this.cell);
    const c1 = Math.floor((box.x + box.w) / this.cell);
    const r0 = Math.floor(box.y / this.cell);
    const r1 = Math.floor((box.y + box.h) / this.cell);
    for (let r = r0; r <= r1; r++) for (let c = c0; c <= c1; c++) visit((r + 4096) * 8192 + (c + 4096));
  }
}

/** Distance from a point to a straight piece, drawing units. */
export function distanceToSegment(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const len2 = dx * dx + dy * dy;
  const share = len2 === 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / len2));
  return Math.hypot(x - x0 - share * dx, y - y0 - share * dy);
}
