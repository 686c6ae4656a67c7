import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import type { Band, VehicleState } from '../../plan/types.ts';
import { GROUND_LIFT_V, GROUND_PLACES, groundPlace } from '../../trade/grounds.ts';
import { BEYOND, flowingFirst } from '../beyond.ts';
import { end, farEnd, movedEnd, onlyWire, railEnd } from '../build.ts';
import { amps, called, defineRule, part, two, verdicts, wire } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { groundPoints, studFor } from '../groundPoints.ts';
import { moversOf, type PinUse, pinName, pinUses } from '../pins.ts';
import { grounded, netAt, partsOn } from '../trace.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('ground-lifts', 'H8');
const HOME_LABEL = 'comes home there';

export const groundLifts = defineRule({
  id: 'ground-lifts',
  code: 'H8',
  level: 'fault',
  title: 'Ground lifts under load',
  why: 'Current makes a drop in the way back as well as in the way out. A signal that is measured against a ground which has lifted is wrong by as much: pins misread, and sound carries what the blower does.',
  source: { text: 'Fitters’ limit 0.1 V between grounds at full load', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => [...points(facts), ...signals(facts).map((s) => judge(facts, s))],
  repair: (finding, facts) => (finding.subject.kind === 'part' ? better(facts, finding) : toComputer(facts, finding)),
});

/** The bolts themselves. */
function points(facts: Facts): Verdict[] {
  return groundPoints(facts).map(({ view, most }) => {
    const subject = part(view.part.id);
    const ohm = view.s.num('measuredOhm') || (groundPlace(view.s.str('place'))?.ohm ?? 0);
    const liftV = ohm * most.amp;
    if (liftV <= GROUND_LIFT_V) return fine(subject);
    if (most.amp > BEYOND.amp) {
      return found({
        level: 'fault',
        subject,
        what: `${flowingFirst(most.amp)} would come home over ${called(view)}: that is a short circuit. A fuse blows or a wire burns, and until then everything that hangs on it is lifted by volts.`,
        todo: 'Find what joins the supply to this ground with nothing between, and mend that first.',
        state: most.state,
        band: most.band,
      });
    }
    return found({
      level: 'fault',
      subject,
      what: `${amps(most.amp)} comes home over the ${two(ohm * 1e3)} mΩ of ${called(view)} and lifts everything that hangs on it by ${two(liftV)} V; ${GROUND_LIFT_V} V is the most it should be.`,
      todo: 'Clean the joint to bare metal or choose a better place, and measure it under load.',
      figures: [
        { label: 'lifts by', value: liftV, unit: 'V' },
        { label: HOME_LABEL, value: most.amp, unit: 'A' },
      ],
      state: most.state,
      band: most.band,
    });
  });
}

/** An input whose mover hangs on a ground of its own. */
interface Signal {
  readonly use: PinUse;
  readonly mover: PartView;
  /** The mover's ground terminal. */
  readonly ground: string;
}

/** Ground terminals of the kinds that pull a pin low and are no plain two-terminal contact. */
const GROUND_OF: Readonly<Record<string, string>> = { 'low-voltage-cutout': 'gnd' };

function signals(facts: Facts): Signal[] {
  return pinUses(facts).flatMap((use) => {
    if (!use.mode.startsWith('in')) return [];
    const outputs = [...use.nets].flatMap((net) => partsOn(facts, net)).filter(({ view, terminal }) => view.kind.kind in GROUND_OF && terminal === 'warn');
    const list: Signal[] = outputs.map(({ view }) => ({ use, mover: view, ground: GROUND_OF[view.kind.kind]! }));
    for (const mover of moversOf(facts, use)) {
      const ground = mover.terminals.find(
        (t) => !use.nets.has(netAt(facts, mover, t.id)) && t.id !== 'A' && t.id !== 'K' && grounded(facts, netAt(facts, mover, t.id)),
      );
      if (ground) list.push({ use, mover, ground: ground.id });
    }
    return list;
  });
}

function judge(facts: Facts, { use, mover, ground }: Signal): Verdict {
  const subject = wire(use.wire.id);
  let most: { v: number; state: VehicleState; band: Band } = { v: 0, state: 'RUN_CHARGING', band: 'low' };
  for (const { state, band } of facts.solved) {
    const v = facts.across(`${use.computer.part.id}.6`, `${mover.part.id}.${ground}`, state, band) ?? 0;
    if (Math.abs(v) > Math.abs(most.v)) most = { v, state, band };
  }
  if (Math.abs(most.v) <= GROUND_LIFT_V) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(mover.part.id), part(use.computer.part.id)],
    what: `${called(mover)} pulls ${pinName(use)} towards a ground that lies ${two(Math.abs(most.v))} V ${most.v > 0 ? 'below' : 'above'} the 0 V of ${called(use.computer)} at full load; ${GROUND_LIFT_V} V is the most it should be.`,
    todo: 'Bring its ground to a 0 V pin of the computer itself.',
    figures: [{ label: 'between the grounds', value: Math.abs(most.v), unit: 'V' }],
    state: most.state,
    band: most.band,
  });
}

function better(facts: Facts, finding: Finding): Repair[] {
  const view = facts.parts.get(finding.subject.id);
  if (!view || view.s.num('measuredOhm') > 0) return [];
  const place = view.s.str('place') === 'hinge' ? 'strapped-cab' : studFor(facts, view);
  const amp = finding.figures.find((f) => f.label === HOME_LABEL)?.value ?? Number.POSITIVE_INFINITY;
  // No place is good enough for the current of a short.
  if (GROUND_PLACES[place].ohm * amp > GROUND_LIFT_V) return [];
  return [typing(view.part.id, { place }, `Make it the ${GROUND_PLACES[place].label}`, false)];
}

function toComputer(facts: Facts, finding: Finding): Repair[] {
  const here = signals(facts).find((s) => s.use.wire.id === finding.subject.id);
  const lead = here && onlyWire(facts.plan, here.mover.part.id, here.ground);
  // A cut-out's ground brings its own current home: it stays where it is.
  if (!here || !lead || here.mover.kind.kind in GROUND_OF) return [];
  return [
    {
      title: `Bring the ground of ${called(here.mover)} to ${called(here.use.computer)}`,
      safe: true,
      edit: (plan) => {
        const row = plan.wires[lead.id];
        const zero = railEnd(plan, here.use.computer.part.id, 'GND', here.use.cell.pin);
        if (!row || !zero) return null;
        const draft = new Draft(plan);
        draft.setWire(movedEnd(row, farEnd(row, here.mover.part.id), end(zero.part, zero.terminal)));
        return draft.edit('repair.apply', 'Bring a ground to the computer');
      },
    },
  ];
}
