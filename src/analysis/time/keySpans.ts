import type { Plan } from '../../plan/types.ts';
import { crankS } from '../../trade/supply.ts';
import type { PartView } from '../factsTypes.ts';
import { ACCESSORY_S, RETENTION_S } from './scenario.ts';
import type { KeySpan, Scenario } from './types.ts';

/** After a door was opened the vehicle's own network goes to sleep in this time, s (common practice: 2 to 30 minutes; the least). */
const SLEEP_S = 120;

/** When the vehicle lets go of what it retains with the doors shut, s after key-off. */
export function retentionS(views: Iterable<PartView>): number {
  const lasts = [...views].flatMap((v) => (v.facts.tap?.line === '75r' ? [v.s.num('retainS')] : []));
  return lasts.length > 0 ? Math.max(...lasts) : RETENTION_S;
}

/** The states of one turn of the key, end to end, from 0 to the end of the scenario. */
export function keySpans(plan: Plan, s: Scenario, retainS: number): KeySpan[] {
  const starts: (readonly [number, KeySpan['state']])[] = [
    [0, 'OFF_ASLEEP'],
    [s.keyOnS, 'ACC'],
    [Math.min(s.keyOnS + ACCESSORY_S, s.startS), 'RUN_STOPPED'],
    [s.startS, 'START'],
    [s.startS + crankS(plan.vehicle.systemV, plan.vehicle.dipLevel), 'RUN_CHARGING'],
    [s.keyOffS, 'RETAIN'],
  ];
  const timeOutS = s.keyOffS + retainS;
  if (s.doorS !== null && s.doorS < timeOutS) starts.push([s.doorS, 'RETAIN_DOOR'], [s.doorS + SLEEP_S, 'OFF_ASLEEP']);
  else starts.push([timeOutS, 'OFF_ASLEEP']);
  const { keyBackS } = s;
  const kept =
    keyBackS === null ? starts : [...starts.filter(([at]) => at < keyBackS), [keyBackS, 'ACC'] as const, [keyBackS + ACCESSORY_S, 'RUN_STOPPED'] as const];
  return kept.flatMap(([fromS, state], k) => {
    const toS = Math.min(kept[k + 1]?.[0] ?? s.untilS, s.untilS);
    return toS > fromS ? [{ state, fromS, toS }] : [];
  });
}
