import { retentionS } from '../analysis/time/keySpans.ts';
import { defaultScenario, LONGEST_S, RETENTION_S, tidyScenario } from '../analysis/time/scenario.ts';
import type { Scenario } from '../analysis/time/types.ts';
import { viewsOf } from '../analysis/views.ts';
import type { Id, Plan } from '../plan/types.ts';
import { timeText } from '../sheet/timing/words.ts';

/** A moment of the strip that a person may move. */
export type MomentId = 'start' | 'keyOff' | 'door' | 'keyBack' | `press${number}`;

export interface Moment {
  readonly id: MomentId;
  readonly label: string;
  readonly tS: number;
  /** How far it may be moved, s. */
  readonly leastS: number;
  readonly mostS: number;
  /** "60 s"; after key-off also how long after. */
  readonly said: string;
}

/** The driver gets out so long after key-off unless moved, s; a button is pressed so long. */
const DOOR_AFTER_S = 10;
const PRESS_FOR_S = 0.3;
const KEY_BACK_AFTER_S = 15;

/** Time of a moment in a scenario; NaN when it has no such moment. */
export function timeOf(scenario: Scenario, id: MomentId): number {
  switch (id) {
    case 'start':
      return scenario.startS;
    case 'keyOff':
      return scenario.keyOffS;
    case 'door':
      return scenario.doorS ?? Number.NaN;
    case 'keyBack':
      return scenario.keyBackS ?? Number.NaN;
    default:
      return scenario.presses[Number(id.slice(5))]?.atS ?? Number.NaN;
  }
}

/** The moments of a scenario in order of handling: key, door, buttons. */
export function momentsOf(plan: Plan, scenario: Scenario, nameOf: (part: Id) => string): readonly Moment[] {
  const ids: { readonly id: MomentId; readonly label: string }[] = [
    { id: 'start', label: 'start' },
    { id: 'keyOff', label: 'key off' },
    ...(scenario.doorS === null ? [] : [{ id: 'door' as const, label: 'door' }]),
    ...(scenario.keyBackS === null ? [] : [{ id: 'keyBack' as const, label: 'key back' }]),
    ...scenario.presses.map((p, i) => ({ id: `press${i}` as const, label: nameOf(p.part) })),
  ];
  return ids.map(({ id, label }) => {
    const tS = timeOf(scenario, id);
    return {
      id,
      label,
      tS,
      leastS: timeOf(moved(plan, scenario, id, 0), id),
      mostS: timeOf(moved(plan, scenario, id, LONGEST_S), id),
      said: tS > scenario.keyOffS ? `${timeText(tS)}, ${timeText(tS - scenario.keyOffS)} after key off` : timeText(tS),
    };
  });
}

/** The scenario with one moment moved, in an order that a hand can turn. What comes after key-off moves along with it. */
export function moved(plan: Plan, scenario: Scenario, id: MomentId, tS: number): Scenario {
  const at = Math.round(tS * 10) / 10;
  const next = tidyScenario(plan, roomFor({ ...scenario, ...patchOf(plan, scenario, id, at) }));
  return { ...next, untilS: untilOf(plan, next) };
}

function patchOf(plan: Plan, scenario: Scenario, id: MomentId, at: number): Partial<Scenario> {
  switch (id) {
    case 'start':
      return { startS: at };
    case 'keyOff': {
      const { keyOffS } = tidyScenario(plan, roomFor({ ...scenario, keyOffS: at }));
      const by = (t: number): number => t + keyOffS - scenario.keyOffS;
      return {
        keyOffS,
        doorS: scenario.doorS === null ? null : by(scenario.doorS),
        keyBackS: scenario.keyBackS === null ? null : by(scenario.keyBackS),
        presses: scenario.presses.map((p) => (p.atS > scenario.keyOffS ? { ...p, atS: by(p.atS) } : p)),
      };
    }
    case 'door':
      return { doorS: Math.min(at, scenario.keyOffS + RETENTION_S) };
    case 'keyBack':
      return { keyBackS: at };
    default: {
      const which = Number(id.slice(5));
      return { presses: scenario.presses.map((p, i) => (i === which ? { ...p, atS: Math.min(at, scenario.untilS - 1) } : p)) };
    }
  }
}

/** As long as a strip may be, so that no moment is cut off before the end has been worked out. */
const roomFor = (scenario: Scenario): Scenario => ({ ...scenario, untilS: LONGEST_S });

/** How long a strip has to be to show how its last event ends: as long after it as the plan's own strip is after key-off. */
export function untilOf(plan: Plan, scenario: Scenario): number {
  const own = defaultScenario(plan);
  const tailS = own.untilS - own.keyOffS;
  const { keyOffS, keyBackS, doorS, presses } = scenario;
  const ends = [
    keyOffS + tailS,
    (doorS ?? keyOffS + letsGoS(plan) + DOOR_AFTER_S) - DOOR_AFTER_S + tailS,
    ...(keyBackS === null ? [] : [keyBackS + tailS]),
    ...presses.map((p) => p.atS + p.forS + DOOR_AFTER_S),
  ];
  return Math.min(LONGEST_S, Math.max(...ends));
}

/** How long after key-off the vehicle keeps a retained line that this plan taps, with the doors shut; 0 where it taps none. */
function letsGoS(plan: Plan): number {
  const views = [...viewsOf(plan).values()];
  return views.some((v) => v.facts.tap?.line === '75r') ? retentionS(views) : 0;
}

/** Does the driver open the door after key-off, or does it stay shut until the vehicle lets go by itself? */
export function withDoor(scenario: Scenario, opens: boolean): Partial<Scenario> {
  return { doorS: opens ? scenario.keyOffS + DOOR_AFTER_S : null };
}

export function withKeyBack(scenario: Scenario, back: boolean): Partial<Scenario> {
  return { keyBackS: back ? scenario.keyOffS + KEY_BACK_AFTER_S : null };
}

/** One more press of a button, halfway between start and key-off. */
export function withPress(scenario: Scenario, part: Id): Partial<Scenario> {
  const atS = Math.round((scenario.startS + scenario.keyOffS) / 2);
  return { presses: [...scenario.presses, { part, atS, forS: PRESS_FOR_S }] };
}

export function withoutPress(scenario: Scenario, which: number): Partial<Scenario> {
  return { presses: scenario.presses.filter((_, i) => i !== which) };
}
