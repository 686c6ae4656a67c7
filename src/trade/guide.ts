/** The lead guide: what an unknown lead most likely is, from a meter's readings in each key position, and when to keep the meter away. */
import { demand, demandNumber } from './basis.ts';
import { GUIDE_STEPS, type GuideStep, LEADS, type LeadRow } from './leads.ts';

export { GUIDE_STEPS, type GuideStep, LEADS, type LeadRow, type LeadUse } from './leads.ts';

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
