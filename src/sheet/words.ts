import type { Level } from '../rules/types.ts';
import type { Band, VehicleState } from '../trade/words.ts';

/** Plain words for each computed state, as they stand after "in". */
export const STATE_WORDS: Readonly<Record<VehicleState, string>> = {
  ISOLATED: 'Isolated',
  OFF_ASLEEP: 'Parked',
  OFF_AWAKE: 'Parked, vehicle still awake',
  ACC: 'Accessory',
  RUN_STOPPED: 'Ignition',
  START: 'Start',
  RUN_CHARGING: 'Running',
  RETAIN: 'Held',
  RETAIN_DOOR: 'Held, door opened',
  AUTO_STOP: 'Engine stopped by stop-start',
  AUTO_CRANK: 'Engine restarted by stop-start',
  REMOTE_RUN: 'Running by remote start',
  PARKED_CHARGE: 'Parked, traction battery charging',
  ISOLATED_RUNNING: 'Isolator opened with the engine running',
};

export function whereText(state: VehicleState | null, band: Band | null): string {
  if (state === null) return '';
  return band === null || band === 'typical' ? STATE_WORDS[state] : `${STATE_WORDS[state]}, ${band} supply`;
}

export const LEVEL_WORDS: Readonly<Record<Level, string>> = { hazard: 'HAZARD', fault: 'FAULT', advice: 'Advice' };

export function plural(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? '' : 's'}`;
}
