import { KEY_POSITIONS, type KeyPosition } from '../analysis/types.ts';
import type { Band, VehicleState } from '../trade/words.ts';

/** Plain words for each computed state, as read in a sentence: "worst in Running". */
export const STATE_WORDS: Readonly<Record<VehicleState, string>> = {
  ISOLATED: 'Isolated',
  OFF_ASLEEP: 'Parked',
  OFF_AWAKE: 'Parked, just woken',
  ACC: 'Accessory',
  RUN_STOPPED: 'Ignition',
  START: 'Start',
  RUN_CHARGING: 'Running',
  RETAIN: 'Held',
  RETAIN_DOOR: 'Held, door opened',
  AUTO_STOP: 'Engine stopped by itself',
  AUTO_CRANK: 'Engine restarting by itself',
  REMOTE_RUN: 'Running by remote start',
  PARKED_CHARGE: 'Parked on a charger',
  ISOLATED_RUNNING: 'Running, then isolated',
};

/** What each key position means, in one sentence. */
export const KEY_MEANING: Readonly<Record<KeyPosition, string>> = {
  Parked: 'Key out, everything asleep.',
  Accessory: 'Key at the first stop: radio and small things work.',
  Ignition: 'Key on, engine not running.',
  Start: 'The starter turns and the supply dips.',
  Running: 'The engine runs and the battery is charged.',
  Held: 'Just after key-off, while something of the build still has power.',
};

/** The key position that shows a state, or the nearest one that does. */
export function keyFor(state: VehicleState): KeyPosition {
  const exact = KEY_POSITIONS.find((k) => k.state === state);
  if (exact) return exact.key;
  switch (state) {
    case 'RETAIN_DOOR':
      return 'Held';
    case 'AUTO_STOP':
      return 'Ignition';
    case 'AUTO_CRANK':
      return 'Start';
    case 'REMOTE_RUN':
    case 'ISOLATED_RUNNING':
      return 'Running';
    default:
      return 'Parked';
  }
}

export const BAND_WORDS: Readonly<Record<Band, string>> = { low: 'low', typical: 'typical', high: 'high' };

/** "Running, low". */
export const where = (state: VehicleState, band: Band): string => `${STATE_WORDS[state]}, ${BAND_WORDS[band]}`;
