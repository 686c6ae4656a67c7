/** What the vehicle supplies, state by state, and the events a plan must stand. Volts; 24 V vehicles are twice the 12 V table. */
import { type Basis, demand } from './basis.ts';
import type { Band, DipLevel, VehicleState } from './words.ts';

/** The nine base states; from OFF_ASLEEP on in the order of the canonical walk, which then returns to OFF_ASLEEP. */
export const STATES: readonly VehicleState[] = ['ISOLATED', 'OFF_ASLEEP', 'OFF_AWAKE', 'ACC', 'RUN_STOPPED', 'START', 'RUN_CHARGING', 'RETAIN', 'RETAIN_DOOR'];

/** States of vehicles that stop and start by themselves, start remotely, charge while parked or have an isolator. */
export const EXTRA_STATES: readonly VehicleState[] = ['AUTO_STOP', 'AUTO_CRANK', 'REMOTE_RUN', 'PARKED_CHARGE', 'ISOLATED_RUNNING'];

type Row = Readonly<Record<Band, number>>;
const row = (low: number, typical: number, high: number): Row => ({ low, typical, high });
const RUNNING = row(13.0, 14.2, 16.0);
const STOPPED = row(10.5, 12.0, 12.8);
const AWAKE = row(11.5, 12.5, 13.5);

/** Open-circuit supply of a 12 V vehicle. Basis: common practice; 16 V from ISO 16750-2 codes A to D (read); START low is filled in from the dip level. */
const TABLE_12V: Record<Exclude<VehicleState, 'START' | 'AUTO_CRANK'>, Row> = {
  ISOLATED: row(0, 0, 0),
  OFF_ASLEEP: row(11.8, 12.6, 12.9),
  OFF_AWAKE: AWAKE,
  ACC: row(11.0, 12.2, 12.8),
  RUN_STOPPED: STOPPED,
  RUN_CHARGING: RUNNING,
  RETAIN: AWAKE,
  RETAIN_DOOR: AWAKE,
  AUTO_STOP: STOPPED,
  REMOTE_RUN: RUNNING,
  PARKED_CHARGE: row(13.5, 14.2, 14.8),
  ISOLATED_RUNNING: RUNNING,
};

export interface CrankProfile {
  readonly dipV: number;
  readonly plateauV: number;
  readonly fallS: number;
  readonly dipS: number;
  readonly riseS: number;
  readonly plateauS: number;
  readonly recoverS: number;
  readonly basis: Basis;
}
/** Ripple of the plateau, V peak to peak at 2 Hz: the trough lies half of it below. Source: ISO 16750-2 (read second-hand). */
export const CRANK_RIPPLE_V = 2;
export const CRANK_RIPPLE_HZ = 2;

const crank = (dipV: number, plateauV: number, fallS: number, dipS: number, plateauS: number, recoverS: number, basis: Basis): CrankProfile => ({
  dipV,
  plateauV,
  fallS,
  dipS,
  riseS: 0.05,
  plateauS,
  recoverS,
  basis,
});
/** Starting profiles. Source: ISO 16750-2:2010/2012 clause 4.6.3; basis per row. 24 V has no level IV: level III stands in. */
const CRANK: Record<12 | 24, Record<DipLevel, CrankProfile>> = {
  12: {
    I: crank(8, 9.5, 0.005, 0.015, 1, 0.04, 'read'),
    II: crank(4.5, 6.5, 0.005, 0.015, 10, 0.1, 'from memory'),
    III: crank(3, 5, 0.005, 0.015, 1, 0.1, 'from memory'),
    IV: crank(6, 6.5, 0.005, 0.015, 10, 0.1, 'from memory'),
  },
  24: {
    I: crank(10, 20, 0.01, 0.05, 1, 0.04, 'from memory'),
    II: crank(8, 15, 0.01, 0.05, 10, 0.1, 'from memory'),
    III: crank(6, 10, 0.01, 0.05, 1, 0.04, 'read'),
    IV: crank(6, 10, 0.01, 0.05, 1, 0.04, 'from memory'),
  },
};

function demandSystem(systemV: number): asserts systemV is 12 | 24 {
  demand(systemV === 12 || systemV === 24, 'System voltage must be 12 or 24', systemV);
}

/** Starting profile of a system and dip level. @throws RangeError for a system other than 12 or 24 V or an unknown level. */
export function crankProfile(systemV: number, level: DipLevel): CrankProfile {
  demandSystem(systemV);
  const profile = CRANK[systemV][level];
  demand(profile !== undefined, 'Dip level must be I, II, III or IV', level);
  return profile;
}

/** Length of the whole starting profile, s. @throws RangeError as `crankProfile`. */
export function crankS(systemV: number, level: DipLevel): number {
  const p = crankProfile(systemV, level);
  return p.fallS + p.dipS + p.riseS + p.plateauS + p.recoverS;
}

/**
 * Open-circuit supply in a state, V per band. In START (and AUTO_CRANK) `low` is the trough of the plateau of the dip level: plateau - 1 V.
 * @throws RangeError for a system other than 12 or 24 V.
 */
export function supplyV(systemV: number, state: VehicleState, level: DipLevel): Record<Band, number> {
  demandSystem(systemV);
  const k = systemV / 12;
  if (state === 'START' || state === 'AUTO_CRANK') {
    return { low: crankProfile(systemV, level).plateauV - CRANK_RIPPLE_V / 2, typical: 10.5 * k, high: 11.5 * k };
  }
  const { low, typical, high } = TABLE_12V[state];
  return { low: low * k, typical: typical * k, high: high * k };
}

export interface SupplyCorners {
  /** Lowest supply at which the build must run. ISO 16750-2 codes C and H (read). */
  readonly loV: number;
  /** Rested, charged battery (from memory). */
  readonly restV: number;
  /** Usual charging (regulator table, read). */
  readonly chargeV: number;
  /** Highest for ever. ISO 16750-2 codes A to H (read). */
  readonly hiV: number;
  /** Jump start, 60 s: 26 V, ISO 16750-2:2023 (read second-hand). Not defined for 24 V: longV stands in. */
  readonly jumpV: number;
  /** Regulator failed, 60 min. ISO 16750-2:2023 (read second-hand). */
  readonly longV: number;
  /** Load dump with a clamp in the alternator. ISO 16750-2 test B (read). */
  readonly dumpClampedV: number;
  /** Load dump without. ISO 16750-2 test A, upper end (read). */
  readonly dumpUnclampedV: number;
  readonly crankDipV: number;
  readonly crankPlateauV: number;
  /** Battery connected backwards, 60 s, as a positive number (from memory). */
  readonly reverseV: number;
  /** Least source resistance of the load dump (read), ohm, and its longest length, s. */
  readonly dumpOhm: number;
  readonly dumpS: number;
  /** Negative pulse 1 of ISO 7637-2:2011 level IV: V (negative), ohm, s (12 V from memory and a trade article; 24 V level read). */
  readonly pulse1V: number;
  readonly pulse1Ohm: number;
  readonly pulse1S: number;
}

/** Design corners and events of a 12 V or 24 V vehicle. @throws RangeError for another system. */
export function supplyCorners(systemV: number, level: DipLevel): SupplyCorners {
  demandSystem(systemV);
  const { dipV: crankDipV, plateauV: crankPlateauV } = crankProfile(systemV, level);
  const crankV = { crankDipV, crankPlateauV };
  return systemV === 12
    ? {
        loV: 9,
        restV: 12.6,
        chargeV: 14.4,
        hiV: 16,
        jumpV: 26,
        longV: 18,
        dumpClampedV: 35,
        dumpUnclampedV: 101,
        ...crankV,
        reverseV: 14,
        dumpOhm: 0.5,
        dumpS: 0.4,
        pulse1V: -150,
        pulse1Ohm: 10,
        pulse1S: 0.002,
      }
    : {
        loV: 18,
        restV: 25.2,
        chargeV: 28.8,
        hiV: 32,
        jumpV: 36,
        longV: 36,
        dumpClampedV: 58,
        dumpUnclampedV: 202,
        ...crankV,
        reverseV: 28,
        dumpOhm: 1,
        dumpS: 0.35,
        pulse1V: -600,
        pulse1Ohm: 50,
        pulse1S: 0.001,
      };
}
