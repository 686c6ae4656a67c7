import type { Facts, PartView, TerminalKey } from '../analysis/factsTypes.ts';
import { coilReleaseS } from '../parts/contacts.ts';
import { copperFactor } from '../parts/values.ts';
import type { VehicleState } from '../plan/types.ts';
import { CRANK_RIPPLE_V, crankProfile, STATES, supplyV } from '../trade/supply.ts';
import { coilDriver } from './coilDriver.ts';
import { vehicleRail } from './rails.ts';
import { sensors, sureA } from './sensing.ts';

/** Least supply of a 12 V vehicle at which a coil has to pull in with the key on and the engine still, V (common practice, no source). */
const MAKE_SUPPLY_V = 11;
/** A coil with so much of its nominal voltage is driven. */
const DRIVEN_SHARE = 0.5;

/** One coil with what it needs at its temperatures. */
export interface Coil {
  readonly view: PartView;
  readonly plus: TerminalKey;
  readonly minus: TerminalKey;
  readonly nominalV: number;
}

/** Whether a coil pulls in when it must, and stays in when it should; volts at the coil. */
export interface CoilMargins {
  /** The state in which it must pull in, what it gets there at the least, and what it needs cold and warmed up. */
  readonly make: VehicleState;
  readonly makeV: number;
  readonly coldNeedV: number;
  /** Null where it never has to pull in again while warm. */
  readonly hotNeedV: number | null;
  /** An optocoupler in its line that is sure to pass less than pulls it in, with both currents, A; null where none does. */
  readonly starved: { readonly by: PartView; readonly sureA: number; readonly pullInA: number } | null;
  /** While starting: what it gets in the trough of the plateau and in the dip, and when it lets go, warm; null where it is not held then. */
  readonly hold: { readonly troughV: number; readonly dipV: number; readonly letsGoV: number; readonly underS: number; readonly releaseS: number } | null;
}

/** Relays whose coils are joined at both ends. */
export function coils(facts: Facts): readonly Coil[] {
  const wired = (view: PartView, ...terminals: string[]): boolean => terminals.every((t) => facts.isWired(`${view.part.id}.${t}`));
  const key = (view: PartView, t: string): TerminalKey => `${view.part.id}.${t}`;
  const plain = facts
    .ofKind('relay')
    .flatMap((view) => (wired(view, '86', '85') ? [{ view, plus: key(view, '86'), minus: key(view, '85'), nominalV: view.s.num('coilV') }] : []));
  const timed = facts
    .ofKind('delay-off-relay')
    .flatMap((view) => (wired(view, '30', '15', '31') ? [{ view, plus: key(view, '30'), minus: key(view, '31'), nominalV: view.s.num('nominalV') }] : []));
  return [...plain, ...timed];
}

/** Null where the coil is driven in no key position, or when nothing was solved. */
export function coilMargins(facts: Facts, coil: Coil): CoilMargins | null {
  const make = STATES.find((state) => driven(facts, coil, state));
  const makeV = make && across(facts, coil, make, 'low');
  if (!make || makeV === null || makeV === undefined) return null;
  const { systemV, dipLevel } = facts.plan.vehicle;
  const onVehicle = vehicleRail(facts).has(coil.plus) || vehicleRail(facts).has(coil.minus);
  const keyed = make === 'ACC' || make === 'RUN_STOPPED';
  const raise = onVehicle && keyed ? Math.max(0, (MAKE_SUPPLY_V * systemV) / 12 - supplyV(systemV, make, dipLevel).low) : 0;
  const { s, maxC } = coil.view;
  const again = driven(facts, coil, 'RUN_CHARGING') && !driven(facts, coil, 'OFF_ASLEEP');
  return {
    make,
    makeV: makeV + raise,
    coldNeedV: s.num('pullInV') * copperFactor(maxC),
    hotNeedV: again ? s.num('pullInV') * copperFactor(maxC + s.num('riseK')) : null,
    starved: starved(facts, coil, make),
    hold: driven(facts, coil, 'RUN_STOPPED') && driven(facts, coil, 'START') ? holding(facts, coil, onVehicle) : null,
  };
}

/** What pulls a coil in is a current, hot or cold; an optocoupler passes what is left of its ratio, however well it does in the middle. */
function starved(facts: Facts, { view }: Coil, make: VehicleState): CoilMargins['starved'] {
  const by = view.kind.kind === 'relay' ? coilDriver(facts, view)?.view : undefined;
  const data = sensors(facts).find((s) => s.opto === by)?.data;
  const ledA = by && facts.elementA(by.part.id, 'opto', make, 'low', 'led');
  if (!by || !data || ledA === null || ledA === undefined) return null;
  const passes = sureA(data, Math.abs(ledA));
  const pullInA = view.s.num('pullInV') / view.s.num('coilOhm');
  return passes < pullInA ? { by, sureA: passes, pullInA } : null;
}

function across(facts: Facts, coil: Coil, state: VehicleState, band: 'low' | 'typical'): number | null {
  const v = facts.across(coil.plus, coil.minus, state, band);
  return v === null ? null : Math.abs(v);
}

/** Is the coil meant to be drawn in, in the middle of the band? */
function driven(facts: Facts, coil: Coil, state: VehicleState): boolean {
  if ((across(facts, coil, state, 'typical') ?? 0) < DRIVEN_SHARE * coil.nominalV) return false;
  if (coil.view.kind.kind === 'relay') return true;
  return (facts.across(`${coil.view.part.id}.15`, coil.minus, state, 'typical') ?? 0) > coil.view.s.num('triggerOnV');
}

function holding(facts: Facts, coil: Coil, onVehicle: boolean): CoilMargins['hold'] {
  const troughV = across(facts, coil, 'START', 'low');
  if (troughV === null) return null;
  const { systemV, dipLevel } = facts.plan.vehicle;
  const p = crankProfile(systemV, dipLevel);
  const lowV = p.plateauV - CRANK_RIPPLE_V / 2;
  const dipV = onVehicle ? Math.max(0, troughV + p.dipV - lowV) : troughV;
  const letsGoV = coil.view.s.num('dropOutMaxV') * copperFactor(coil.view.maxC + coil.view.s.num('riseK'));
  // Time of fall, dip and rise with the coil below that, on straight lines between the corners of the profile.
  const levelV = letsGoV + (lowV - troughV);
  const share = (from: number): number => Math.min(1, Math.max(0, (levelV - p.dipV) / (from - p.dipV)));
  const underS = dipV >= letsGoV ? 0 : p.fallS * share(supplyV(systemV, 'RUN_STOPPED', dipLevel).low) + p.dipS + p.riseS * share(p.plateauV);
  return { troughV, dipV, letsGoV, underS, releaseS: coilReleaseS(coil.view.s) };
}

/** Does the coil let go in the course of a start? */
export function letsGo(hold: CoilMargins['hold']): boolean {
  return hold !== null && (hold.troughV < hold.letsGoV || hold.underS > hold.releaseS);
}
