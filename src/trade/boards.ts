/** What the 40-pin computer draws at its 5 V pins, A. Source: board maker's power-supply page (read), except the newest class. */
import type { Basis } from './basis.ts';
import type { LogicGeneration } from './logic.ts';

export type BoardClass = 'low-power' | 'mid-power' | 'high-power' | 'newest';

export interface BoardFacts {
  readonly title: string;
  /** Halted, supply still there. */
  readonly offA: number;
  readonly idleA: number;
  /** Average while busy. */
  readonly busyA: number;
  /** Highest during start. */
  readonly bootA: number;
  /** Highest while busy, nothing plugged in. */
  readonly peakA: number;
  /** Supply that the maker recommends. */
  readonly recommendedA: number;
  /** All USB sockets together. */
  readonly usbTotalA: number;
  readonly logic: LogicGeneration;
  readonly basis: Basis;
}

export const BOARDS: Record<BoardClass, BoardFacts> = {
  'low-power': {
    title: 'Low-power board',
    offA: 0.055,
    idleA: 0.1,
    busyA: 0.23,
    bootA: 0.2,
    peakA: 0.35,
    recommendedA: 1.2,
    usbTotalA: 1.2,
    logic: 'older',
    basis: 'read',
  },
  'mid-power': {
    title: 'Mid-power board',
    offA: 0.1,
    idleA: 0.3,
    busyA: 0.85,
    bootA: 0.75,
    peakA: 1.34,
    recommendedA: 2.5,
    usbTotalA: 1.2,
    logic: 'older',
    basis: 'read',
  },
  'high-power': {
    title: 'High-power board',
    offA: 0.023,
    idleA: 0.6,
    busyA: 1.2,
    bootA: 0.85,
    peakA: 1.25,
    recommendedA: 3,
    usbTotalA: 1.2,
    logic: 'newer',
    basis: 'read',
  },
  newest: {
    title: 'Newest board',
    offA: 0.3,
    idleA: 0.65,
    busyA: 1.7,
    bootA: 1.6,
    peakA: 2.4,
    recommendedA: 5,
    usbTotalA: 1.6,
    logic: 'unknown',
    basis: 'from memory',
  },
};

export type BoxClass = 'open' | 'vented' | 'metal' | 'closed' | 'fan';

/** How much warmer than its surroundings the air around the board gets, K per watt. Common practice, no source. */
export const BOXES: Record<BoxClass, { readonly title: string; readonly kPerW: number }> = {
  open: { title: 'open, on a plate', kPerW: 1.5 },
  vented: { title: 'with holes for air', kPerW: 3 },
  metal: { title: 'aluminium, closed', kPerW: 3 },
  closed: { title: 'small closed plastic', kPerW: 5 },
  fan: { title: 'with holes and a fan', kPerW: 1 },
};

/** Warmest air that a board should work in, degrees C: its chip throttles itself at 80 to 85 degrees C (from memory). */
export const BOARD_AIR_MAX_C = 70;
/** Air in which the chip throttles itself whatever it does, degrees C: the lower end of that range (from memory). */
export const BOARD_THROTTLE_C = 80;

/** Header 5 V window and the supply watch, V (board maker's supply chapter, read): warns at 4.63 V +/- 5 %. */
export const BOARD_SUPPLY = { minV: 4.75, maxV: 5.25, warnMinV: 4.4, warnV: 4.63, warnMaxV: 4.86, nominalV: 5.1 } as const;
