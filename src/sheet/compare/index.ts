export { compareWirings } from './compare.ts';
export { comparedDrawing, SIGNS } from './drawing.ts';
export type { Comparison, Difference, FoundLine, Goods, Pair, Side } from './types.ts';
