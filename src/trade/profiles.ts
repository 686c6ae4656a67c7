/** Supply against time: the starting profile and the events of ISO 16750-2 and ISO 7637-2, as closed functions. */
import { type Basis, demandNumber } from './basis.ts';
import { type Curve, decay, joined, lines } from './curves.ts';
import { CRANK_RIPPLE_HZ, CRANK_RIPPLE_V, crankProfile, supplyCorners } from './supply.ts';
import type { DipLevel } from './words.ts';

export interface Profile extends Curve {
  readonly id: ProfileId;
  readonly title: string;
  /** Resistance of the source that gives it, least and greatest, ohm. */
  readonly sourceOhm: readonly [least: number, most: number];
  /** When that source is at work, s: before and after the supply is a stiff one. Absent = throughout. */
  readonly pulse?: readonly [fromS: number, toS: number];
  /** Length of one, s. */
  readonly lastsS: number;
  readonly source: string;
  readonly basis: Basis;
}

export type ProfileId =
  | 'starting'
  | 'load-dump-a'
  | 'load-dump-b'
  | 'jump-start'
  | 'long-over-voltage'
  | 'reversed-battery'
  | 'pulse-1'
  | 'pulse-2a'
  | 'pulse-2b';

/** Supply with the engine running and stopped in the tests of ISO 16750-2, V for 12 V (from memory); 24 V twice that. */
const TEST_V = { running: 14, stopped: 12 } as const;
/** Rise of the load dump, s: 10 ms, +0/-5 ms (a journal paper's table, read). */
const DUMP_RISE_S = 0.01;
/** Test sources of steady supplies are stiff: at most 0.01 ohm is usual (common practice). */
const STIFF_OHM = [0, 0.01] as const;
const LN_10 = Math.log(10);

/**
 * Starting profile: down to the dip, up to the plateau with 2 V of ripple at 2 Hz, back.
 * @param fromV supply before, V; absent = 12 V or 24 V, engine stopped
 * @param toV supply after, V; absent = as before
 * @throws RangeError as `crankProfile`
 */
export function startingProfile(systemV: number, level: DipLevel, fromV = (TEST_V.stopped * systemV) / 12, toV = fromV): Profile {
  const p = crankProfile(systemV, level);
  const dipS = p.fallS;
  const riseS = dipS + p.dipS;
  const plateauS = riseS + p.riseS;
  const recoverS = plateauS + p.plateauS;
  const endS = recoverS + p.recoverS;
  const mean = lines([
    [0, fromV],
    [dipS, p.dipV],
    [riseS, p.dipV],
    [plateauS, p.plateauV],
    [recoverS, p.plateauV],
    [endS, toV],
  ]);
  const ripple = (tS: number): number =>
    tS <= plateauS || tS >= recoverS ? 0 : (-CRANK_RIPPLE_V / 2) * Math.sin(2 * Math.PI * CRANK_RIPPLE_HZ * (tS - plateauS));
  return {
    id: 'starting',
    title: `Starting profile ${level}`,
    corners: mean.corners,
    volts: (tS) => mean.volts(tS) + ripple(tS),
    sourceOhm: STIFF_OHM,
    lastsS: endS,
    source: 'ISO 16750-2:2010/2012, 4.6.3',
    basis: p.basis,
  };
}

/**
 * Load dump, the alternator's battery torn off: test A without, test B with a clamp in the alternator. Rises in 10 ms to
 * its peak, then decays so that from a tenth of the rise to a tenth of the decay the stated time passes.
 * @param peakV 79..101 V (12 V), 151..202 V (24 V); absent = the upper end
 */
export function loadDump(systemV: 12 | 24, test: 'A' | 'B', peakV?: number): Profile {
  const corners = supplyCorners(systemV, 'I');
  const top = peakV ?? corners.dumpUnclampedV;
  demandNumber(top, systemV === 12 ? 79 : 151, systemV === 12 ? 101 : 202, 'Peak of the load dump in V');
  const baseV = (TEST_V.running * systemV) / 12;
  const tauS = (corners.dumpS - 0.9 * DUMP_RISE_S) / LN_10;
  // Ten time constants: what is left is a millivolt.
  const lastsS = DUMP_RISE_S + 10 * tauS;
  const rise = lines([
    [0, baseV],
    [DUMP_RISE_S, top],
  ]);
  const free = joined([rise, decay(DUMP_RISE_S, top, baseV, tauS)]);
  const limitV = test === 'B' ? corners.dumpClampedV : Number.POSITIVE_INFINITY;
  const clipped = test === 'A' ? [] : [DUMP_RISE_S * ((limitV - baseV) / (top - baseV)), DUMP_RISE_S + tauS * Math.log((top - baseV) / (limitV - baseV))];
  return {
    id: test === 'A' ? 'load-dump-a' : 'load-dump-b',
    title: test === 'A' ? 'Load dump, not clamped' : 'Load dump, clamped in the alternator',
    corners: [...free.corners, ...clipped].sort((a, b) => a - b),
    volts: (tS) => Math.min(limitV, free.volts(tS)),
    sourceOhm: systemV === 12 ? [0.5, 4] : [1, 8],
    lastsS,
    source: 'ISO 16750-2:2010/2012, 4.6.4, tables 5 and 6',
    basis: 'read',
  };
}

/** Jump start of a 12 V vehicle from a 24 V one: 26 V for 60 s, edges of 10 ms at most. Not defined for 24 V vehicles. */
export function jumpStart(): Profile {
  const { jumpV } = supplyCorners(12, 'I');
  return {
    id: 'jump-start',
    title: 'Jump start from a 24 V vehicle',
    ...lines([
      [0, 10.8],
      [0.01, jumpV],
      [60.01, jumpV],
      [60.02, 10.8],
    ]),
    sourceOhm: STIFF_OHM,
    lastsS: 60.02,
    source: 'ISO 16750-2:2023, 4.3.1.2, quoted in test-bench notes',
    basis: 'read',
  };
}

/** The alternator's regulator has failed: 18 V or 36 V for an hour. */
export function longOverVoltage(systemV: 12 | 24): Profile {
  const { longV } = supplyCorners(systemV, 'I');
  const baseV = (TEST_V.running * systemV) / 12;
  return {
    id: 'long-over-voltage',
    title: 'Regulator failed, one hour',
    ...lines([
      [0, baseV],
      [0.01, longV],
      [3600.01, longV],
      [3600.02, baseV],
    ]),
    sourceOhm: STIFF_OHM,
    lastsS: 3600.02,
    source: 'ISO 16750-2:2023, 4.3.1.1, quoted in test-bench notes; duration for 24 V from memory',
    basis: systemV === 12 ? 'read' : 'from memory',
  };
}

/** Battery joined the wrong way round for a minute. */
export function reversedBattery(systemV: 12 | 24): Profile {
  const { reverseV } = supplyCorners(systemV, 'I');
  return {
    id: 'reversed-battery',
    title: 'Battery the wrong way round',
    ...lines([
      [0, 0],
      [0.001, -reverseV],
      [60.001, -reverseV],
      [60.002, 0],
    ]),
    sourceOhm: STIFF_OHM,
    lastsS: 60.002,
    source: 'ISO 16750-2, 4.7, case 2',
    basis: 'from memory',
  };
}

/** Supply beside the pulses of ISO 7637-2, V (from memory): 13.5 and 27. */
const PULSE_SUPPLY_V = { 12: 13.5, 24: 27 } as const;

/**
 * Pulse 1: an inductive load beside the build is cut off together with it. The supply goes, the line swings below zero
 * and decays; after 200 ms the supply is back. Level IV.
 */
export function pulse1(systemV: 12 | 24): Profile {
  const { pulse1V, pulse1Ohm, pulse1S } = supplyCorners(systemV, 'I');
  const base = PULSE_SUPPLY_V[systemV];
  const startS = 1e-4;
  const peakS = startS + (systemV === 12 ? 1e-6 : 3e-6);
  const backS = startS + 0.2;
  return {
    id: 'pulse-1',
    title: 'Inductive load cut off beside it',
    ...joined([
      lines([
        [0, base],
        [startS, 0],
        [peakS, pulse1V],
      ]),
      decay(peakS, pulse1V, 0, pulse1S / LN_10),
      lines([
        [backS, 0],
        [backS + 1e-4, base],
      ]),
    ]),
    sourceOhm: [pulse1Ohm, pulse1Ohm],
    pulse: [startS, backS],
    lastsS: backS + 1e-4,
    source: systemV === 12 ? 'ISO 7637-2:2011, 5.6.1' : 'ISO 7637-2:2011, 5.6.1; wave files of a test generator',
    basis: systemV === 12 ? 'from memory' : 'read',
  };
}

/** Pulse 2a: the wires' own inductance when a device in parallel stops drawing: 112 V on top of the supply for 50 µs. Level IV. */
export function pulse2a(systemV: 12 | 24): Profile {
  const base = PULSE_SUPPLY_V[systemV];
  const peakV = base + 112;
  const startS = 1e-4;
  const peakS = startS + 1e-6;
  return {
    id: 'pulse-2a',
    title: 'Current cut off in the wires',
    ...joined([
      lines([
        [0, base],
        [startS, base],
        [peakS, peakV],
      ]),
      decay(peakS, peakV, base, 50e-6 / LN_10),
    ]),
    sourceOhm: [2, 2],
    pulse: [startS, 1e-3],
    lastsS: 1e-3,
    source: 'ISO 7637-2:2011, 5.6.2; wave files of a test generator; level for 24 V from memory',
    basis: systemV === 12 ? 'read' : 'from memory',
  };
}

/** Pulse 2b: a fan motor coasts on as a generator after the key is off: 10 V or 20 V, dying away in up to 2 s. */
export function pulse2b(systemV: 12 | 24): Profile {
  const base = PULSE_SUPPLY_V[systemV];
  const peakV = (10 * systemV) / 12;
  return {
    id: 'pulse-2b',
    title: 'A motor coasts on after key-off',
    ...joined([
      lines([
        [0, base],
        [0.001, 0],
        [0.002, 0],
        [0.003, peakV],
      ]),
      decay(0.003, peakV, 0, 2 / LN_10),
    ]),
    sourceOhm: [0, 0.05],
    lastsS: 10,
    source: 'ISO 7637-2:2011, 5.6.2',
    basis: 'from memory',
  };
}

/** Every event of a system, the jump start for 12 V only. */
export function eventProfiles(systemV: 12 | 24, level: DipLevel): readonly Profile[] {
  return [
    startingProfile(systemV, level),
    loadDump(systemV, 'A'),
    loadDump(systemV, 'B'),
    ...(systemV === 12 ? [jumpStart()] : []),
    longOverVoltage(systemV),
    reversedBattery(systemV),
    pulse1(systemV),
    pulse2a(systemV),
    pulse2b(systemV),
  ];
}
