import type { Facts } from '../../analysis/factsTypes.ts';
import type { Reading } from '../../analysis/types.ts';
import { wiresOn } from '../../plan/connect.ts';
import { Draft } from '../../plan/draft.ts';
import type { Plan } from '../../plan/types.ts';
import { PIN_MAX_V, RAIL3 } from '../../trade/logic.ts';
import { SERIES } from '../../trade/preferred.ts';
import { beside, end, newPart, newWire, railEnd, SHORT_M } from '../build.ts';
import { called, defineRule, ohms, part, STATE_WORDS, verdicts, voltsApart, wire } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { pinCorner, pinStar } from '../pinCorner.ts';
import { type PinUse, pinName, pinUses, pullsOn } from '../pins.ts';
import type { Repair } from '../types.ts';

const { fine, found, unknown } = verdicts('pin-over-voltage', 'E4');
/** 0 V and 3.3 V of the header, to which a pin's volts are taken. */
const ZERO = '6';
const RAIL = '1';

export const pinOverVoltage = defineRule({
  id: 'pin-over-voltage',
  code: 'E4',
  level: 'hazard',
  title: 'Too much voltage at a pin',
  why: 'A pin is made for 3.3 V. What is above goes through its guard diode into the chip, which was never meant to carry it.',
  source: { text: 'Board maker’s pin page: 3.3 V, above that destruction is likely (read); 3.6 V from practice', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) =>
    pinUses(facts).map((use) => {
      const subject = wire(use.wire.id);
      const worst = worstV(facts, use);
      if (!worst) return unknown(subject, `the volts at ${pinName(use)} could not be worked out`);
      if (worst.volt <= PIN_MAX_V) return fine(subject);
      const [comes, stands] = voltsApart(worst.volt, PIN_MAX_V);
      const how = worst.corner === null ? `comes to ${comes}` : `may come to ${comes}`;
      const corner = worst.corner === null ? '' : `, with ${worst.corner}`;
      return found({
        level: 'hazard',
        subject,
        related: [part(use.computer.part.id)],
        what: `${pinName(use)} ${how} (${STATE_WORDS[worst.reading.state]})${corner}; a pin stands ${stands}.`,
        todo:
          worst.corner === null
            ? 'Divide the voltage down, or bring the signal over an optocoupler.'
            : 'Make the resistor towards the line larger or the one to 0 V smaller, or take resistors of a closer tolerance.',
        figures: [
          { label: 'at the pin', value: worst.volt, unit: 'V' },
          { label: 'pin stands', value: PIN_MAX_V, unit: 'V' },
        ],
        state: worst.reading.state,
        band: worst.reading.band,
      });
    }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    return use ? divider(facts, use) : [];
  },
});

/** A pin this far above the board's 3.3 V lets current in; one that only follows a lifted rail does not, V. */
const INTO_RAIL_V = 0.2;
/** No tolerance of resistors lifts what is lower than this above what a pin stands, V. */
const CORNER_FROM_V = 2.5;

interface Worst {
  readonly volt: number;
  readonly reading: Reading;
  /** Which resistors must be off for it, in words; null where it comes so far as drawn. */
  readonly corner: string | null;
}

/** The highest reading of a pin over all states and bands, its resistors at their worst where they matter; null when nothing was solved. */
function worstV(facts: Facts, use: PinUse): Worst | null {
  let worst: Worst | null = null;
  const star = pinStar(facts, use);
  for (const reading of facts.solved) {
    const volt = pinV(facts, use, reading);
    if (volt === null) continue;
    const higher = worst === null || volt > worst.volt;
    if (higher && !follows(facts, use, volt, reading)) worst = { volt, reading, corner: null };
    if (!star || volt > PIN_MAX_V || volt < CORNER_FROM_V) continue;
    const corner = pinCorner(facts, use, star, reading);
    if (corner && corner.volt > PIN_MAX_V && corner.volt > (worst?.volt ?? 0)) worst = { volt: corner.volt, reading, corner: corner.words };
  }
  // A pin that floats in every state has no volts of its own.
  return worst ?? (facts.solved.length > 0 ? { volt: 0, reading: facts.solved[0]!, corner: null } : null);
}

/** Does a pin that is too high only follow the board's 3.3 V, which another pin lifts? */
function follows(facts: Facts, use: PinUse, volt: number, reading: Reading): boolean {
  if (volt <= PIN_MAX_V || lifts(facts, use, reading)) return false;
  return pinUses(facts).some((u) => u.computer === use.computer && lifts(facts, u, reading));
}

function pinV(facts: Facts, use: PinUse, reading: Reading): number | null {
  return facts.across(use.key, `${use.computer.part.id}.${ZERO}`, reading.state, reading.band);
}

/** Does current go from this pin into the board's 3.3 V and lift it? */
function lifts(facts: Facts, use: PinUse, reading: Reading): boolean {
  const above = facts.across(use.key, `${use.computer.part.id}.${RAIL}`, reading.state, reading.band);
  return (pinV(facts, use, reading) ?? 0) > PIN_MAX_V && (above === null || above > INTO_RAIL_V);
}

/** A 5 V rail at its ends, and the tolerance of the resistors. */
const FIVE = { least: 0.95, most: 1.05 } as const;
const TOL = 0.05;

/** A resistor from the pin to 0 V that makes a divider with the only resistor from a 5 V rail, or the one there made smaller. */
function divider(facts: Facts, use: PinUse): Repair[] {
  const pulls = pullsOn(facts, use.nets);
  const one = pulls.find((p) => p.volt > 0);
  const down = pulls.filter((p) => p.volt === 0);
  if (!one || pulls.length !== 1 + down.length || down.length > 1 || one.volt <= RAIL3.maxV || one.volt >= facts.plan.vehicle.systemV) return [];
  const top = one.view.s.num('ohm');
  const share = (low: number, high: number): number => low / (low + high);
  const fits = (low: number): boolean =>
    one.volt * FIVE.most * share(low * (1 + TOL), top * (1 - TOL)) <= RAIL3.maxV &&
    one.volt * FIVE.least * share(low * (1 - TOL), top * (1 + TOL)) >= use.logic.vIhMinV;
  const ohm = [10, 100, 1000, 10_000, 100_000].flatMap((d) => SERIES.E12.map((m) => Math.round(m * d))).findLast(fits);
  if (ohm === undefined) return [];
  const [there] = down;
  if (there) return [typing(there.view.part.id, { ohm }, `Make ${called(there.view)} ${ohms(ohm)}`, true)];
  return [{ title: `Add ${ohms(ohm)} from the pin to 0 V`, safe: true, edit: (plan) => added(plan, use, ohm) }];
}

function added(plan: Plan, use: PinUse, ohm: number) {
  const id = use.computer.part.id;
  const computer = plan.parts[id];
  const pinWire = wiresOn(plan, id, `${use.cell.pin}`)[0];
  const zero = railEnd(plan, id, 'GND', use.cell.pin);
  if (!computer || !pinWire || !zero) return null;
  const draft = new Draft(plan);
  const low = newPart(draft, { kind: 'resistor', ...beside(computer, -130, 180), name: 'Divider', settings: { ohm } });
  newWire(draft, end(low, '1'), pinWire.from.part === id ? pinWire.to : pinWire.from, { lengthM: SHORT_M });
  newWire(draft, end(low, '2'), zero);
  return draft.edit('repair.apply', 'Add a divider');
}
