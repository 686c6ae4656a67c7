export { type Audit, allAmps, allFlows, audit, elementAmps } from './amps.ts';
export { compile, type Network } from './network.ts';
export { cornerFactors } from './scaled.ts';
export { type Sensitivity, sensitivities, type Target, targetValue } from './sensitivity.ts';
export { type ElementsFor, type SettleOptions, settle } from './settle.ts';
export { type SolveOptions, solveAtRest } from './solve.ts';
export type * from './types.ts';
export { type Aim, type CornerEntry, type Worst, worst, worstCases } from './worst.ts';
