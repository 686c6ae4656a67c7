import type { SymbolDrawing } from '../drawing/types.ts';
import { stroke } from './symbols.ts';

const W = 100;
const H = 20;

/** A ready-made cable: a long rounded jacket with its conductors inside; a screen is the dashed one. Pads at both ends. */
export function cableBody(left: string, right: string, screened: boolean): SymbolDrawing {
  return {
    w: W,
    h: H,
    primitives: [
      { t: 'rect', x: 0, y: 1, w: W, h: H - 2, r: 9, fill: 'paper', ink: 'ink', lw: 1.5 },
      stroke([12, 7, W - 12, 7], 'soft', 1),
      { t: 'line', pts: [12, 13, W - 12, 13], ink: 'soft', w: 1, ...(screened ? { dash: [3, 2] } : {}) },
    ],
    pads: { [left]: { x: 0, y: H / 2, side: 'left' }, [right]: { x: W, y: H / 2, side: 'right' } },
  };
}
