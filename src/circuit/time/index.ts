export { type FuseGates, type FuseState, fuseHeat, openingS } from './fuse.ts';
export { transient } from './transient.ts';
export type * from './types.ts';
