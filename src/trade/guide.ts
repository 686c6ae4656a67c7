/**
 * The lead guide: what an unknown lead most likely is, from a meter's readings in each key position, and how it may be used.
 * Basis: workshop tables for the switch contacts and the two-wire bus (read), owner's handbooks for retention (read), the rest
 * common practice. Volts against battery minus, 12 V vehicle; supply-borne readings double at 24 V.
 */
import { demand, demandNumber } from './basis.ts';
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
const NEVER_LIVE = { asleep: DEAD, accessory: DEAD, ignition: DEAD, start: DEAD, running: DEAD, 'key-off': DEAD, 'door-open': DEAD } as const;

export const LEADS: readonly LeadRow[] = [
  {
    id: 'permanent',
    title: 'Permanent, terminal 30',
    line: '30',
    reads: { asleep: LIVE, accessory: LIVE, ignition: LIVE, start: CRANK, running: CHARGE, 'key-off': LIVE, 'door-open': LIVE, 'hour-later': LIVE },
    use: 'supply',
    how: 'Feed for the hold-up supply, with its own fuse at the tap.',
    warning: 'Never switches off by itself: everything on it counts as parked draw.',
  },
  {
    id: 'saver',
    title: 'Permanent behind a battery saver',
    line: '30',
    reads: { asleep: LIVE, accessory: LIVE, ignition: LIVE, start: [0, 12], running: CHARGE, 'key-off': LIVE, 'door-open': LIVE, 'hour-later': DEAD },
    use: 'supply',
    how: 'Feed, as long as the shutdown is over well before the saver cuts it.',
    warning: 'Goes dead minutes to hours after key-off.',
  },
  {
    id: 'accessory',
    title: 'Accessory, terminal 75',
    line: '75',
    reads: { asleep: DEAD, accessory: LIVE, ignition: LIVE, start: DEAD, running: CHARGE, 'key-off': DEAD, 'door-open': DEAD },
    use: 'sense',
    how: 'Key sensing with a filter longer than cranking lasts, or the coil of a relay.',
    warning: 'Drops while the starter turns: as the only feed it cuts the computer at every start.',
  },
  {
    id: 'retained',
    title: 'Retained accessory',
    line: '75r',
    reads: { asleep: DEAD, accessory: LIVE, ignition: LIVE, start: [0, 12], running: CHARGE, 'key-off': LIVE, 'door-open': DEAD },
    use: 'sense',
    how: 'Key sensing only.',
    warning: 'Opening a door ends it at once, so it is no supply for a shutdown.',
  },
  {
    id: 'ignition',
    title: 'Ignition, terminal 15',
    line: '15',
    reads: { asleep: DEAD, accessory: DEAD, ignition: LIVE, start: CRANK, running: CHARGE, 'key-off': DEAD, 'door-open': DEAD },
    use: 'sense',
    how: 'The best lead for key sensing; also the coil of a relay.',
  },
  {
    id: 'run-only',
    title: 'Ignition, dropped while cranking',
    line: '75',
    reads: { asleep: DEAD, accessory: DEAD, ignition: LIVE, start: DEAD, running: CHARGE, 'key-off': DEAD, 'door-open': DEAD },
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
    reads: { ...NEVER_LIVE, ignition: [0, 2.5], start: [0, 2.5], running: CHARGE },
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
    reads: { ...NEVER_LIVE, 'lamps-on': DEAD, 'dimmer-low': DEAD, 'radio-on': DEAD, reverse: DEAD, 'hour-later': DEAD },
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

/** Signs that end the survey before a meter comes near. */
export const LEAVE_ALONE: readonly { readonly id: string; readonly title: string; readonly why: string }[] = [
  { id: 'yellow-cover', title: 'Yellow cover, tube or plug', why: 'Restraint wiring. A meter’s own current can fire a bag. Leave it, do not measure.' },
  { id: 'orange-cover', title: 'Orange cover, cable or plug', why: 'High voltage of an electrified vehicle, in some older ones restraint wiring. Stop here.' },
  {
    id: 'twisted-pair',
    title: 'Two wires twisted together',
    why: 'A bus of the vehicle’s computers, a wheel sensor or restraint wiring. Leave it, do not measure.',
  },
  {
    id: 'shorting-bar',
    title: 'A spring bar inside the plug',
    why: 'A restraint plug that joins its contacts when pulled. Leave it plugged in, do not measure.',
  },
];

/** Before the first reading. */
export const GROUND_RULES: readonly string[] = [
  'Use a digital meter of 10 MΩ or more. No lamp testers: they draw enough to upset or destroy what they touch.',
  'Look first: yellow, orange, a twisted pair or a shorting bar ends it.',
  'Measure at the plug from the wire side with the plug in place.',
  'Note every reading twice: against battery minus and against the ground you mean to use. The difference is the ground drop.',
  'A restraint system needs its maker’s waiting time after the battery is off, from one to ten minutes.',
  'Load a lead only when it is already known as a feed: 12 Ω 20 W draws 1 A at 12 V, 24 Ω 50 W at 24 V, ten seconds at most, and it gets hot.',
  'Less than 0.3 V lost at 1 A is a real feed; more than 1 V is a signal or a thin lead.',
  'Radio plug positions for permanent and switched are swapped in many vehicles. Measure, never assume.',
];

/** Counted readings that are needed before a lead may be called known. */
export const READINGS_WANTED = 6;

export interface LeadFit {
  readonly fits: readonly LeadRow[];
  /** Counted readings entered. */
  readonly entered: number;
  /** Enough readings and exactly one row left. */
  readonly sure: boolean;
}

/**
 * Rows that all entered readings agree with.
 * @param readings volts against battery minus, per step; steps not taken are absent
 * @throws RangeError for a system other than 12 or 24 V or a reading outside -60..60 V.
 */
export function fitLeads(readings: Readonly<Partial<Record<GuideStep, number>>>, systemV: number): LeadFit {
  demand(systemV === 12 || systemV === 24, 'System voltage must be 12 or 24', systemV);
  const taken = GUIDE_STEPS.flatMap((step) => {
    const v = readings[step.id];
    if (v === undefined) return [];
    demandNumber(v, -60, 60, `Reading at "${step.title}" in V`);
    return [{ step: step.id, v, counts: step.counts }];
  });
  const entered = taken.filter((t) => t.counts).length;
  const fits = taken.length === 0 ? LEADS : LEADS.filter((row) => taken.every((t) => agrees(row, t.step, t.v, systemV)));
  return { fits, entered, sure: entered >= READINGS_WANTED && fits.length === 1 };
}

function agrees(row: LeadRow, step: GuideStep, v: number, systemV: number): boolean {
  const range = row.reads[step];
  if (range === undefined) return true;
  const k = row.ownVolts ? 1 : systemV / 12;
  return v >= range[0] * k - 0.3 && v <= range[1] * k;
}
