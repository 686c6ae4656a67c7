/** Transistors that a 3.3 V pin may switch, SI units, and what a pin does for them. */
import type { Basis } from './basis.ts';

export type DriverType = 'mosfet' | 'ordinary-mosfet' | 'bipolar';

export interface DriverFacts {
  readonly title: string;
  readonly type: 'mosfet' | 'bipolar';
  /** Gate voltage at which its resistance is stated, V. */
  readonly fullV: number;
  readonly onOhm: number;
  readonly baseOhm: number;
  readonly pullDownOhm: number;
  readonly maxV: number;
  readonly ratedA: number;
  readonly basis: Basis;
  readonly source: string;
}

const KEEPS_OFF_OHM = 100e3;

export const DRIVERS: Record<DriverType, DriverFacts> = {
  mosfet: {
    title: 'MOSFET for logic, 60 V',
    type: 'mosfet',
    fullV: 2.5,
    onOhm: 0.05,
    baseOhm: 1000,
    pullDownOhm: KEEPS_OFF_OHM,
    maxV: 60,
    ratedA: 2,
    basis: 'from memory',
    source: '60 V logic-level MOSFET class, resistance stated at 2.5 V; data sheets from memory',
  },
  'ordinary-mosfet': {
    title: 'Ordinary MOSFET, 60 V',
    type: 'mosfet',
    fullV: 10,
    onOhm: 0.03,
    baseOhm: 1000,
    pullDownOhm: KEEPS_OFF_OHM,
    maxV: 60,
    ratedA: 10,
    basis: 'from memory',
    source: '60 V power MOSFET class with a threshold of 2 V to 4 V, resistance stated at 10 V; data sheets from memory',
  },
  bipolar: {
    title: 'Small bipolar transistor, 40 V',
    type: 'bipolar',
    fullV: 2.5,
    onOhm: 2,
    baseOhm: 1000,
    pullDownOhm: KEEPS_OFF_OHM,
    maxV: 40,
    ratedA: 0.2,
    basis: 'from memory',
    source: '40 V 0.2 A switching transistor class; data sheets from memory',
  },
};

/** What a high pin is sure to give a MOSFET's gate, V: its rail at the least, less a little (common practice, no source). */
export const GATE_DRIVE_V = 3.0;
/** What a loaded pin is sure to give and what a base takes of it, V; collector current per base current that one counts on (practice). */
export const BASE_DRIVE = { pinV: 2.6, baseV: 0.75, gain: 20 } as const;
/** Below this no transistor conducts enough to matter, V: half a volt (common practice, no source). */
export const STAYS_OFF_V = 0.5;

/** Load current that a base resistor fully switches, A. */
export function baseDrivenA(baseOhm: number): number {
  return (BASE_DRIVE.gain * (BASE_DRIVE.pinV - BASE_DRIVE.baseV)) / baseOhm;
}
