export { type TimeBase, timeBase } from './base.ts';
export { type CycleOptions, keyCycle } from './cycle.ts';
export { allEvents, type EventRun, events, runEvent } from './event.ts';
export { margins, worstMargins } from './margins.ts';
export { defaultScenario, tidyScenario } from './scenario.ts';
export { fullSpread, type SpreadOptions, spread } from './spread.ts';
export type * from './types.ts';
export { parkedWeeks } from './weeks.ts';
