/** Levels and currents of the 3.3 V pins per processor generation. */
import type { Basis } from './basis.ts';

export type LogicGeneration = 'older' | 'newer' | 'unknown';

export interface LogicFacts {
  /** Greatest voltage that surely reads low, V. */
  readonly vIlMaxV: number;
  /** Least voltage that surely reads high, V. */
  readonly vIhMinV: number;
  /** Input leakage at 85 degrees C, A. */
  readonly leakA: number;
  /** Internal pull resistor, ohm. */
  readonly pullMinOhm: number;
  readonly pullMaxOhm: number;
  /** Output current at the drive setting after reset, and at the strongest, A. */
  readonly driveDefaultA: number;
  readonly driveMaxA: number;
  /** Output levels at the default drive, V. */
  readonly vOlMaxV: number;
  readonly vOhMinV: number;
  readonly basis: Basis;
  readonly source: string;
}

const NEWER = {
  vIlMaxV: 0.8,
  vIhMinV: 2.0,
  leakA: 10e-6,
  pullMinOhm: 33e3,
  pullMaxOhm: 73e3,
  driveDefaultA: 0.004,
  driveMaxA: 0.008,
  vOlMaxV: 0.4,
  vOhMinV: 2.6,
} as const;

export const LOGIC: Record<LogicGeneration, LogicFacts> = {
  older: {
    vIlMaxV: 0.9,
    vIhMinV: 1.6,
    leakA: 5e-6,
    pullMinOhm: 50e3,
    pullMaxOhm: 65e3,
    driveDefaultA: 0.008,
    driveMaxA: 0.016,
    vOlMaxV: 0.4,
    vOhMinV: 2.3,
    basis: 'read',
    source: 'board maker’s pin voltage tables, first to third processor generation',
  },
  newer: { ...NEWER, basis: 'read', source: 'board maker’s pin voltage tables, fourth processor generation' },
  /** The worse of both, figure by figure; also stands for the newest class, whose levels are not published. */
  unknown: { ...NEWER, basis: 'calculated', source: 'the worse of the two known generations, assumed' },
};

/** All header pins together, A (board maker's hardware page, read). */
export const ALL_PINS_A = 0.05;
/** A pin must never see more than the 3.3 V rail plus a diode; current forced into its clamp at most, A (common practice). */
export const PIN_MAX_V = 3.6;
export const CLAMP_MAX_A = 0.001;

/** Interface levels of 3.3 V logic, V. Source: JEDEC JESD8C.01 (from memory; the LVTTL four also read in a processor sheet). */
export const JESD8C = {
  supplyMinV: 3.0,
  supplyMaxV: 3.6,
  vIlMaxV: 0.8,
  vIhMinV: 2.0,
  vOlMaxV: 0.4,
  vOhMinV: 2.4,
} as const;

/** 3.3 V rail of the board: nominal and the corners used for pull-ups (5 %, common practice). */
export const RAIL3 = { minV: 3.135, typicalV: 3.3, maxV: 3.465 } as const;
/** What all parts at the header's 3.3 V pins together may take, A (cautious; common practice, no source). */
export const RAIL3_OUT_A = 0.3;
