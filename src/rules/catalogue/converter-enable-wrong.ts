import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import type { Band } from '../../plan/types.ts';
import { beside, end, farEnd, newPart, newWire, onlyWire, SHORT_M } from '../build.ts';
import { called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { removeWire } from '../fixes.ts';
import { converters } from '../rails.ts';
import { endingAt } from '../supplyHold.ts';
import { grounded, netAt, waysFrom } from '../trace.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('converter-enable-wrong', 'F15');
const BANDS: readonly Band[] = ['typical', 'low', 'high'];

export const converterEnableWrong = defineRule({
  id: 'converter-enable-wrong',
  code: 'F15',
  level: 'fault',
  title: 'Converter’s enable input is wired the wrong way',
  why: 'Some converters run while their enable input is high, others while it is low. Joined the wrong way, the key switches the build off instead of on, or it runs while the vehicle is parked.',
  source: { text: 'Data sheet of the 2596 class: runs below 0.6 V, off above 2.0 V (read)', grade: 'data sheet' },
  needs: 'readings',
  explains: ['five-volt-half-alive', 'parked-draw-too-high'],
  check: (facts) => enabled(facts).map((view) => judge(facts, view)),
  repair: (finding, facts) => repairs(facts, finding),
});

/** Converters whose enable input is joined to something. */
function enabled(facts: Facts): PartView[] {
  return converters(facts)
    .map((c) => c.view)
    .filter((view) => view.kind.kind === 'step-down' && facts.isWired(`${view.part.id}.en`));
}

function judge(facts: Facts, view: PartView): Verdict {
  const subject = part(view.part.id);
  const id = view.part.id;
  const high = view.s.str('enActive') === 'high';
  const mostV = view.s.num('enMaxV') || view.s.num('absMaxV');
  const say = (why: string, what: string, todo: string, value: number, state: 'RUN_CHARGING' | 'OFF_ASLEEP', band: Band): Verdict =>
    found({ level: 'fault', subject, what, todo, figures: [{ label: 'at the enable input', value, unit: 'V' }], state, band, data: { why } });
  const reach = Math.max(...BANDS.map((b) => facts.across(`${id}.en`, `${id}.gnd`, 'RUN_CHARGING', b) ?? 0), 0);
  if (reach > mostV) {
    const what = `The enable input of ${called(view)} stands ${volts(mostV)} and gets ${volts(reach)}.`;
    return say('over', what, 'Drive it over a transistor or optocoupler, or divide the voltage down.', reach, 'RUN_CHARGING', 'high');
  }
  if (!driven(facts, view)) {
    const what = `The enable input of ${called(view)} is joined to something that never drives it: it ${high ? 'never runs' : 'always runs'}.`;
    return say(
      'loose',
      what,
      high ? 'Join it to what should switch it on.' : 'Take the wire away, or join it to what should switch it.',
      0,
      'RUN_CHARGING',
      'typical',
    );
  }
  const v = facts.across(`${id}.en`, `${id}.gnd`, 'RUN_CHARGING', 'typical');
  const inV = facts.across(`${id}.in`, `${id}.gnd`, 'RUN_CHARGING', 'typical');
  if (v === null || inV === null || inV < view.s.num('startV') || facts.deviceOn(id, 'run', 'RUN_CHARGING', 'typical')) return fine(subject);
  // What only the computer holds up waits for a hand: nothing is wrong with that.
  if (high && !grounded(facts, netAt(facts, view, 'en'))) return fine(subject);
  const what = `With the key on the enable input of ${called(view)} is at ${volts(v)}, and it runs only while that is ${high ? 'high' : 'low'}: the key switches it off.`;
  return say(
    'reversed',
    what,
    high ? 'Join it to a line that is live while it should run.' : 'Put an inverting transistor or optocoupler between.',
    v,
    'RUN_CHARGING',
    'typical',
  );
}

const PASSES: ReadonlySet<string> = new Set(['fuse', 'conductor', 'contact', 'resistor', 'diode']);

/** Does anything lead from the enable input to a source or to ground, other than through the converter itself? */
function driven(facts: Facts, view: PartView): boolean {
  const ways = waysFrom(
    facts,
    netAt(facts, view, 'en'),
    (h) => !h.views.includes(view) && PASSES.has(h.link.type),
    (net) => grounded(facts, net),
  );
  if ([...ways.keys()].some((net) => grounded(facts, net))) return true;
  return [...facts.parts.values()].some((other) => (other.facts.sources ?? []).some((s) => s.kind !== 'audio' && ways.has(netAt(facts, other, s.terminal))));
}

function repairs(facts: Facts, finding: Finding): readonly Repair[] {
  const view = facts.parts.get(finding.subject.id);
  const lead = view && onlyWire(facts.plan, view.part.id, 'en');
  if (!view || !lead || view.s.str('enActive') === 'high') return [];
  const title = `Leave the enable input of ${called(view)} open: it then runs whenever it has supply`;
  // Open, it runs while its supply is there: right where that falls with the key or is held by a timer.
  if (endingAt(facts, view, 'in')?.holdS !== Number.POSITIVE_INFINITY || finding.data?.why === 'loose') return [removeWire(lead.id, title)];
  return finding.data?.why === 'reversed' ? [invert(view, lead.id)] : [];
}

/** An optocoupler that pulls the enable input down while the key is on; a resistor from the supply switches it off after that. */
function invert(view: PartView, leadId: string): Repair {
  return {
    title: 'Put an inverting optocoupler between',
    safe: false,
    edit: (plan) => {
      const lead = plan.wires[leadId];
      const row = plan.parts[view.part.id];
      if (!lead || !row) return null;
      const draft = new Draft(plan);
      const large = plan.vehicle.systemV === 24;
      const series = newPart(draft, {
        kind: 'resistor',
        ...beside(row, -300, 120),
        name: 'Enable resistor',
        settings: large ? { ohm: 4700, ratedW: 0.5 } : { ohm: 2200 },
      });
      const opto = newPart(draft, { kind: 'optocoupler', ...beside(row, -150, 120), name: 'Enable inverter', settings: { type: '817a' } });
      const reverse = newPart(draft, { kind: 'diode', ...beside(row, -220, 180), turn: 3, name: 'Reverse diode', settings: { type: '1n4148' } });
      const pull = newPart(draft, { kind: 'resistor', ...beside(row, -60, 120), name: 'Enable pull-up', settings: { ohm: 10_000 } });
      draft.setWire({
        id: lead.id,
        owner: lead.owner,
        from: farEnd(lead, row.id),
        to: end(series, '1'),
        ...(lead.number === undefined ? {} : { number: lead.number }),
      });
      newWire(draft, end(series, '2'), end(opto, 'A'), { lengthM: SHORT_M });
      newWire(draft, end(reverse, 'K'), end(opto, 'A'), { lengthM: SHORT_M });
      newWire(draft, end(reverse, 'A'), end(opto, 'K'), { lengthM: SHORT_M });
      newWire(draft, end(opto, 'K'), end(row.id, 'gnd'), { lengthM: SHORT_M });
      newWire(draft, end(opto, 'E'), end(row.id, 'gnd'), { lengthM: SHORT_M });
      newWire(draft, end(opto, 'C'), end(row.id, 'en'), { lengthM: SHORT_M });
      newWire(draft, end(pull, '1'), end(row.id, 'in'), { lengthM: SHORT_M });
      newWire(draft, end(pull, '2'), end(opto, 'C'), { lengthM: SHORT_M });
      return draft.edit('repair.apply', 'Add an inverting optocoupler');
    },
  };
}
