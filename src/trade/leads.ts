/**
 * Rows of the lead guide: what a lead reads in each key position, what it then is and how it may be used.
 * Basis: workshop tables for the switch contacts and the two-wire bus (read), owner's handbooks for retention (read), the rest
 * common practice. Volts against battery minus, 12 V vehicle; readings that follow the supply double at 24 V.
 */
import type { Line } from './words.ts';

/** Steps of the survey, in the order a person takes them. Lamps, radio and reverse are off unless the step names them. */
export const GUIDE_STEPS = [
  { id: 'asleep', title: 'Key out, doors shut, vehicle asleep', counts: true },
  { id: 'accessory', title: 'Key in Accessory', counts: true },
  { id: 'ignition', title: 'Ignition on, engine still', counts: true },
  { id: 'start', title: 'While the starter turns', counts: true },
  { id: 'running', title: 'Engine running', counts: true },
  { id: 'key-off', title: 'Key just off, doors shut', counts: true },
  { id: 'door-open', title: "Then with the driver's door open", counts: true },
  { id: 'lamps-on', title: 'Ignition on, side lamps on', counts: true },
  { id: 'dimmer-low', title: 'Side lamps on, dimmer at its lowest', counts: false },
  { id: 'radio-on', title: 'Accessory, radio on', counts: false },
  { id: 'reverse', title: 'Ignition on, reverse engaged, brake held, engine still', counts: false },
  { id: 'hour-later', title: 'Key out, an hour later', counts: false },
] as const;
export type GuideStep = (typeof GUIDE_STEPS)[number]['id'];

export type LeadUse = 'supply' | 'sense' | 'trigger' | 'return' | 'leave';
type Range = readonly [minV: number, maxV: number];

export interface LeadRow {
  readonly id: string;
  readonly title: string;
  /** The feed it becomes on the plan, if any. */
  readonly line: Line | null;
  /** What a meter may show at each step; a step that is not named tells nothing about this row. */
  readonly reads: Readonly<Partial<Record<GuideStep, Range>>>;
  /** Readings that do not follow the supply (buses, sensors) stay the same in a 24 V vehicle. */
  readonly ownVolts?: boolean;
  readonly use: LeadUse;
  readonly how: string;
  readonly warning?: string;
}

const DEAD: Range = [0, 0.6];
const LIVE: Range = [11, 13.6];
const CRANK: Range = [5, 12];
const CHARGE: Range = [13, 15.2];
/** Dead with the key alone; rows name the one step that wakes them. */
const NEVER_LIVE = {
  asleep: DEAD,
  accessory: DEAD,
  ignition: DEAD,
  start: DEAD,
  running: DEAD,
  'key-off': DEAD,
  'door-open': DEAD,
  'lamps-on': DEAD,
  'radio-on': DEAD,
  reverse: DEAD,
} as const;
/** Steps beyond the key that have the ignition, or the accessory position, on. */
const IGNITION_ON = { 'lamps-on': LIVE, 'dimmer-low': LIVE, reverse: LIVE } as const;
const ACCESSORY_ON = { ...IGNITION_ON, 'radio-on': LIVE } as const;

export const LEADS: readonly LeadRow[] = [
  {
    id: 'permanent',
    title: 'Permanent, terminal 30',
    line: '30',
    reads: {
      asleep: LIVE,
      accessory: LIVE,
      ignition: LIVE,
      start: CRANK,
      running: CHARGE,
      'key-off': LIVE,
      'door-open': LIVE,
      'hour-later': LIVE,
      ...ACCESSORY_ON,
    },
    use: 'supply',
    how: 'Feed for the hold-up supply, with its own fuse at the tap.',
    warning: 'Never switches off by itself: everything on it counts as parked draw.',
  },
  {
    id: 'saver',
    title: 'Permanent behind a battery saver',
    line: '30',
    reads: {
      asleep: LIVE,
      accessory: LIVE,
      ignition: LIVE,
      start: [0, 12],
      running: CHARGE,
      'key-off': LIVE,
      'door-open': LIVE,
      'hour-later': DEAD,
      ...ACCESSORY_ON,
    },
    use: 'supply',
    how: 'Feed, as long as the shutdown is over well before the saver cuts it.',
    warning: 'Goes dead minutes to hours after key-off.',
  },
  {
    id: 'accessory',
    title: 'Accessory, terminal 75',
    line: '75',
    reads: { ...ACCESSORY_ON, asleep: DEAD, accessory: LIVE, ignition: LIVE, start: DEAD, running: CHARGE, 'key-off': DEAD, 'door-open': DEAD },
    use: 'sense',
    how: 'Key sensing with a filter longer than cranking lasts, or the coil of a relay.',
    warning: 'Drops while the starter turns: as the only feed it cuts the computer at every start.',
  },
  {
    id: 'retained',
    title: 'Retained accessory',
    line: '75r',
    reads: { ...ACCESSORY_ON, asleep: DEAD, accessory: LIVE, ignition: LIVE, start: [0, 12], running: CHARGE, 'key-off': LIVE, 'door-open': DEAD },
    use: 'sense',
    how: 'Key sensing only.',
    warning: 'Opening a door ends it at once, so it is no supply for a shutdown.',
  },
  {
    id: 'ignition',
    title: 'Ignition, terminal 15',
    line: '15',
    reads: {
      ...IGNITION_ON,
      'radio-on': DEAD,
      asleep: DEAD,
      accessory: DEAD,
      ignition: LIVE,
      start: CRANK,
      running: CHARGE,
      'key-off': DEAD,
      'door-open': DEAD,
    },
    use: 'sense',
    how: 'The best lead for key sensing; also the coil of a relay.',
  },
  {
    id: 'run-only',
    title: 'Ignition, dropped while cranking',
    line: '75',
    reads: {
      ...IGNITION_ON,
      'radio-on': DEAD,
      asleep: DEAD,
      accessory: DEAD,
      ignition: LIVE,
      start: DEAD,
      running: CHARGE,
      'key-off': DEAD,
      'door-open': DEAD,
    },
    use: 'sense',
    how: 'Key sensing with a filter longer than cranking lasts.',
  },
  {
    id: 'start',
    title: 'Start, terminal 50',
    line: null,
    reads: { ...NEVER_LIVE, start: CRANK },
    use: 'leave',
    how: 'Leave it.',
    warning: 'Current drawn here can keep the starter from engaging or hold it in.',
  },
  {
    id: 'charging',
    title: 'Charging, terminal 61',
    line: null,
    reads: { ...NEVER_LIVE, ignition: [0, 2.5], start: [0, 2.5], running: CHARGE, 'lamps-on': [0, 2.5], reverse: [0, 2.5] },
    use: 'sense',
    how: 'Tells that the engine runs; only through 10 kΩ or more.',
  },
  {
    id: 'side-lamps',
    title: 'Side lamps, terminal 58',
    line: '58',
    reads: { ...NEVER_LIVE, 'lamps-on': LIVE, 'dimmer-low': LIVE },
    use: 'sense',
    how: 'Day or night for the screen, through an optocoupler.',
  },
  {
    id: 'dimmed-lamps',
    title: 'Dimmed instrument lamps, terminal 58d',
    line: null,
    reads: { ...NEVER_LIVE, 'lamps-on': [3, 13.6], 'dimmer-low': [0.6, 10] },
    use: 'sense',
    how: 'Brightness for the screen, through an optocoupler and a filter: it is switched on and off 80 to 400 times a second.',
    warning: 'Never a supply.',
  },
  {
    id: 'remote',
    title: 'Aerial or amplifier switch-on',
    line: null,
    reads: { ...NEVER_LIVE, 'radio-on': [10, 13.6] },
    use: 'trigger',
    how: 'Switches a relay coil or a sensing input of less than 50 mA.',
    warning: 'Made for 0.15 to 0.3 A in all.',
  },
  {
    id: 'reversing',
    title: 'Reversing lamp',
    line: 'reverse',
    reads: { ...NEVER_LIVE, reverse: LIVE },
    use: 'sense',
    how: 'Shows the camera, through an optocoupler with a filter.',
    warning: 'The vehicle tests the lamp with short pulses; without a filter the picture flickers.',
  },
  {
    id: 'ground',
    title: 'Ground, terminal 31',
    line: '31',
    reads: { ...NEVER_LIVE, 'dimmer-low': DEAD, 'hour-later': DEAD },
    use: 'return',
    how: 'Way back for current. With the battery off it reads less than 0.5 Ω to the negative lead; its drop under load is what counts.',
  },
  {
    id: 'two-wire-bus',
    title: 'One of a bus pair',
    line: null,
    reads: { accessory: [2, 3], ignition: [2, 3], start: [2, 3], running: [2, 3] },
    ownVolts: true,
    use: 'leave',
    how: 'Never tap. A listener belongs on the diagnostic socket.',
    warning: 'A twisted pair whose two readings mirror each other about 2.5 V.',
  },
  {
    id: 'single-wire-bus',
    title: 'Single-wire bus',
    line: null,
    reads: { accessory: [7, 11], ignition: [7, 11], running: [7, 12.9] },
    use: 'leave',
    how: 'Never tap.',
    warning: 'The reading flickers and drops when the vehicle goes to sleep.',
  },
  {
    id: 'sensor',
    title: 'Sensor signal or its 5 V supply',
    line: null,
    reads: { asleep: DEAD, accessory: DEAD, ignition: [0.5, 5.2], start: [0.5, 5.2], running: [0.5, 5.2], 'key-off': DEAD },
    ownVolts: true,
    use: 'leave',
    how: 'Never tap.',
    warning: 'The engine’s own computer relies on it.',
  },
  {
    id: 'speaker',
    title: 'Loudspeaker',
    line: null,
    reads: { ...NEVER_LIVE, 'radio-on': [5, 7.5] },
    use: 'leave',
    how: 'Never ground it; sound for the radio goes in at its own input.',
    warning: 'Half the supply stands on both wires of the pair, 2 to 8 Ω apart.',
  },
];
