import { stopS } from '../../parts/computer/settings.ts';
import { settingsOf } from '../../parts/definePart.ts';
import { partKind } from '../../parts/index.ts';
import { bankFarad, bankJoule } from '../../parts/storeFigures.ts';
import type { Settings } from '../../parts/types.ts';
import type { Plan } from '../../plan/types.ts';
import { crankS } from '../../trade/supply.ts';
import type { Scenario } from './types.ts';

/** Accessory is passed in this time when the key is turned on, s (common practice, no source). */
export const ACCESSORY_S = 1;
/** The vehicle holds its retained line so long when no door opens, s (owner's handbooks, read: 10 minutes). */
export const RETENTION_S = 600;
/** What a strip may show at most, s. */
export const LONGEST_S = 7200;
/** A hand needs as long between two moves of the key, s. */
const HAND_S = 0.5;
/** Room on the strip before the key goes off and after all has let go, s. */
const LOOK_S = 15;

/** A stopped computer with what stays on beside it takes about so much out of a store, W (common practice, no source). */
const LEFT_ON_W = 5;

/**
 * The turn of the key that shows what a plan does: on, start, long enough running for the computer to come up and for
 * stores to fill, off, a door after ten seconds, and on until every hold has run out.
 */
export function defaultScenario(plan: Plan): Scenario {
  const of = (kind: string): Settings[] =>
    Object.values(plan.parts)
      .filter((p) => p.kind === kind)
      .map((p) => settingsOf(partKind(kind), p.settings));
  const computers = of('computer');
  const boot = Math.max(0, ...computers.map((s) => s.num('bootS')));
  const stop = Math.max(0, ...computers.map(stopS));
  const hold = Math.max(0, ...of('delay-off-relay').map((s) => s.num('holdS') * (1 + s.num('holdTol'))));
  // A latch lets go after the computer has stopped.
  const latch = stop + Math.max(0, ...of('hold-latch').map((s) => s.num('releaseS') * (1 + s.num('timeTol'))));
  const stores = of('store');
  const limiters = of('charge-limiter');
  const leastA = Math.min(...limiters.map((s) => s.num('limitA') * (1 - s.num('limitTol'))));
  const fullV = Math.max(0, ...limiters.map((s) => s.num('fullV')));
  const fillS = Math.max(0, ...stores.map((s) => (bankFarad(s) * fullV) / leastA));
  const carriedS = Math.max(0, ...stores.map((s) => bankJoule(s, fullV) / LEFT_ON_W));
  const startS = 5;
  const keyOffS = upToTen(Math.min(LONGEST_S / 2, startS + crankS(plan.vehicle.systemV, plan.vehicle.dipLevel) + Math.max(boot, fillS) + LOOK_S));
  return {
    band: 'typical',
    keyOnS: 2,
    startS,
    keyOffS,
    doorS: keyOffS + 10,
    untilS: Math.min(LONGEST_S, upToTen(keyOffS + Math.max(hold, latch, carriedS) + LOOK_S)),
    presses: [],
    keyBackS: null,
  };
}

/** The same moments in an order that a hand can turn: each at least as long after the one before as it takes. */
export function tidyScenario(plan: Plan, s: Scenario): Scenario {
  const keyOnS = within(s.keyOnS, HAND_S, LONGEST_S / 4);
  const startS = within(s.startS, keyOnS + ACCESSORY_S + HAND_S, LONGEST_S / 3);
  const keyOffS = within(s.keyOffS, startS + crankS(plan.vehicle.systemV, plan.vehicle.dipLevel) + HAND_S, LONGEST_S / 2);
  const keyBackS = s.keyBackS === null ? null : within(s.keyBackS, keyOffS + HAND_S, LONGEST_S - 10);
  const untilS = within(s.untilS, Math.max(keyOffS, keyBackS ?? 0) + 10, LONGEST_S);
  return {
    ...s,
    keyOnS,
    startS,
    keyOffS,
    doorS: s.doorS === null ? null : within(s.doorS, keyOffS, untilS),
    keyBackS,
    untilS,
    presses: s.presses.filter((p) => p.atS >= 0 && p.atS < untilS && p.forS > 0),
  };
}

function within(value: number, least: number, most: number): number {
  return Number.isFinite(value) ? Math.min(Math.max(value, least), most) : least;
}

function upToTen(seconds: number): number {
  return 10 * Math.ceil(seconds / 10);
}
