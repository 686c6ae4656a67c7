import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { Reading } from '../../analysis/types.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { RESISTOR_WATTS, resistorWattsAt } from '../../trade/preferred.ts';
import { amps, called, defineRule, ohms, part, two, verdicts } from '../defineRule.ts';
import { fedNets } from '../outputs.ts';
import { converters } from '../rails.ts';
import { ledCircuit, sensors } from '../sensing.ts';
import { netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('resistor-too-hot', 'K1');
/** Above this share of what it stands in its place a resistor is hotter than one likes (fitters' habit). */
const WARM = 0.6;
/** Less than this warms nothing, W. */
const COLD_W = 1e-3;

export const resistorTooHot = defineRule({
  id: 'resistor-too-hot',
  code: 'K1',
  level: 'fault',
  title: 'Resistor gets too hot',
  why: 'A resistor of a quarter watt takes that quarter watt in cool air. Behind a dash it may take less, and what it cannot give off it keeps: it browns, drifts, and unsolders itself.',
  source: { text: 'Resistor makers’ derating from 70 °C (read); 60 % from practice', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => {
    let others: ReadonlySet<PartView> | null = null;
    return facts.ofKind('resistor').flatMap((view) => {
      if (neverWarm(facts, view)) return [fine(part(view.part.id))];
      others ??= judgedElsewhere(facts);
      return others.has(view) ? [] : judge(facts, view);
    });
  },
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const watt = view && heat(facts, view)?.watt;
    const ratedW = watt === undefined ? undefined : RESISTOR_WATTS.find((w) => watt <= WARM * resistorWattsAt(w, view!.maxC));
    if (ratedW === undefined) return [];
    return [{ title: `Fit a ${ratedW} W resistor`, safe: true, edit: (plan) => setSettings(plan, finding.subject.id, { ratedW }) }];
  },
});

/** Cool even with all of the vehicle's volts across it: most are, and need no reading. */
function neverWarm(facts: Facts, view: PartView): boolean {
  const watt = facts.corners.hiV ** 2 / (view.s.num('ohm') * (1 - view.s.num('tol')));
  return watt <= WARM * resistorWattsAt(view.s.num('ratedW'), view.maxC);
}

/** Resistors in line with sensing and indicator LEDs: those rules know what else changes with them. */
function judgedElsewhere(facts: Facts): ReadonlySet<PartView> {
  const circuits = [...sensors(facts).map((s) => s.led), ...facts.ofKind('led').map((led) => ledCircuit(facts, led, 'A', 'K'))];
  return new Set(circuits.flatMap((c) => c?.resistors ?? []));
}

interface Heat {
  readonly watt: number;
  readonly amp: number;
  readonly at: Reading | null;
}

/**
 * The most that it turns to heat in any reading, with its resistance at the least, for what is over it stays, and the converter that
 * feeds it set as high as it may be. Null when nothing was solved.
 */
function heat(facts: Facts, view: PartView): Heat | null {
  if (facts.solved.length === 0) return null;
  let amp = Math.abs(facts.designElementA(view.part.id, 'r') ?? 0);
  let at: Reading | null = null;
  for (const reading of facts.solved) {
    const here = Math.abs(facts.elementA(view.part.id, 'r', reading.state, reading.band) ?? 0);
    if (here > amp) [amp, at] = [here, reading];
  }
  const watt = (amp ** 2 * view.s.num('ohm')) / (1 - view.s.num('tol'));
  return { watt: watt < COLD_W ? watt : watt * highest(facts, view) ** 2, amp, at };
}

/** Share by which the output of a converter at either end of it may be high. */
function highest(facts: Facts, view: PartView): number {
  const ends = ['1', '2'].map((t) => netAt(facts, view, t));
  const tols = converters(facts).flatMap((c) => (ends.some((n) => fedNets(facts, c).has(n)) ? [c.view.s.num('setTol')] : []));
  return 1 + Math.max(0, ...tols);
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const h = heat(facts, view);
  if (!h) return [];
  const subject = part(view.part.id);
  const allowedW = resistorWattsAt(view.s.num('ratedW'), view.maxC);
  if (h.watt < COLD_W || h.watt <= WARM * allowedW) return [fine(subject)];
  const over = h.watt > allowedW;
  return [
    found({
      level: over ? 'fault' : 'advice',
      subject,
      what: `${called(view)}, ${ohms(view.s.num('ohm'))}, turns ${two(h.watt)} W to heat at ${amps(h.amp)}; at ${view.maxC} °C around it ${two(allowedW)} W is ${over ? 'the most' : `the most, and ${two(WARM * allowedW)} W what one likes`}.`,
      todo: 'Fit a stronger resistor, or a larger resistance where the circuit allows.',
      figures: [
        { label: 'heat', value: h.watt, unit: 'W' },
        { label: 'stands', value: allowedW, unit: 'W' },
      ],
      state: h.at?.state ?? 'RUN_STOPPED',
      band: h.at?.band ?? 'low',
    }),
  ];
}
