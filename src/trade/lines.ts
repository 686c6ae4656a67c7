/** Terminal lines of DIN 72552 that a feed may tap, and the vehicle states in which each has voltage. */
import type { Basis } from './basis.ts';
import type { Line, VehicleState } from './words.ts';

export interface LineFact {
  /** Terminal number as printed; retained accessory has none of its own. */
  readonly terminal: string;
  readonly title: string;
  /** One sentence for a beginner. */
  readonly about: string;
  readonly basis: Basis;
  readonly source: string;
}

/** Source: DIN 72552 lists (30, 15, 31, 50 read; 58, 75 from memory); retained accessory from owner's handbooks (read). */
export const LINES: Record<Line, LineFact> = {
  '30': {
    terminal: '30',
    title: 'Permanent',
    about: 'Battery plus, live whatever the key does: right for a hold-up supply, wrong for anything that nobody switches off.',
    basis: 'read',
    source: 'DIN 72552',
  },
  '15': {
    terminal: '15',
    title: 'Ignition',
    about: 'Live with the key in Ignition, while cranking and while running: the clearest sign that somebody is driving.',
    basis: 'read',
    source: 'DIN 72552',
  },
  '75': {
    terminal: '75',
    title: 'Accessory',
    about: 'Live in Accessory and Ignition but dropped while cranking, so that the starter gets all there is.',
    basis: 'from memory',
    source: 'DIN 72552; workshop continuity chart of an ignition switch (read) for the drop in Start',
  },
  '75r': {
    terminal: '75',
    title: 'Retained accessory',
    about: 'An accessory line that stays live for some minutes after key-off, usually until a door opens.',
    basis: 'read',
    source: "owner's handbooks of five vehicles",
  },
  '50': {
    terminal: '50',
    title: 'Start',
    about: 'Live only while the starter turns: never a supply and never a place to tap.',
    basis: 'read',
    source: 'DIN 72552',
  },
  '58': {
    terminal: '58',
    title: 'Side lamps',
    about: 'Live while side and instrument lamps are on: good for telling day from night, never a supply.',
    basis: 'from memory',
    source: 'DIN 72552',
  },
  reverse: {
    terminal: 'reverse',
    title: 'Reversing lamp',
    about: 'Live while reverse gear is engaged with the ignition on: tells the screen to show the camera.',
    basis: 'common practice',
    source: 'fitters’ practice',
  },
  '31': {
    terminal: '31',
    title: 'Ground',
    about: 'Battery minus and everything joined to it: the way back for every current.',
    basis: 'read',
    source: 'DIN 72552',
  },
};

/**
 * Lines that have voltage, per state. Source: workshop tables (read) and common practice.
 * 58 counts as live from Accessory to Running because lamps on is the heavier case, and as dead while the key cranks;
 * reverse counts as live in the two Run states only. 75 and 75r drop in Start but not when a stop-start controller cranks.
 * With the isolator pulled nothing is live; pulled while the engine turns, the alternator keeps every running line up.
 */
const LIVE: Record<VehicleState, readonly Line[]> = {
  ISOLATED: [],
  OFF_ASLEEP: ['30'],
  OFF_AWAKE: ['30'],
  ACC: ['30', '75', '75r', '58'],
  RUN_STOPPED: ['30', '15', '75', '75r', '58', 'reverse'],
  START: ['30', '15', '50'],
  RUN_CHARGING: ['30', '15', '75', '75r', '58', 'reverse'],
  RETAIN: ['30', '75r'],
  RETAIN_DOOR: ['30'],
  AUTO_STOP: ['30', '15', '75', '75r', '58'],
  AUTO_CRANK: ['30', '15', '75', '75r', '58', '50'],
  REMOTE_RUN: ['30', '15'],
  PARKED_CHARGE: ['30'],
  ISOLATED_RUNNING: ['30', '15', '75', '75r', '58'],
};

/** Has a line voltage in a vehicle state? Ground (31) is never live. */
export function isLive(line: Line, state: VehicleState): boolean {
  return LIVE[state].includes(line);
}
