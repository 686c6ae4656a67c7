import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { partKind } from '../../parts/index.ts';
import { Draft } from '../../plan/draft.ts';
import { CONVERTERS } from '../../trade/converters.ts';
import { beside, end, farEnd, groundEnd, movedEnd, newPart, newWire, onlyWire, SHORT_M } from '../build.ts';
import { amps, called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { dumpV } from '../rails.ts';
import { taps } from '../taps.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('half-of-pair', 'A16');
/** A long working day, h, to show what the imbalance comes to. */
const DAY_H = 10;
/** The class of converter that a 24 V vehicle wants. */
const CLASS = '75v-6a';
/** Surge that a converter of that class may see, as a share of its limit (common practice, no source). */
const IN_HAND = 0.9;

export const halfOfPair = defineRule({
  id: 'half-of-pair',
  code: 'A16',
  level: 'hazard',
  title: '12 V taken from half of a 24 V pair',
  why: 'Two batteries in series are charged as one. What is drawn from the middle empties only one of them: that one sulphates, and the other is overcharged each day, boils, and gives off gas that burns.',
  source: { text: 'Makers of batteries and equalisers warn of it; universal practice, from memory', grade: "fitters' habit" },
  needs: 'readings',
  always: true,
  check: (facts) =>
    facts.plan.vehicle.systemV !== 24
      ? []
      : taps(facts)
          .filter((t) => t.source.kind === 'feed')
          .map((t) => judge(facts, t.view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    return view ? throughConverter(facts, view) : [];
  },
});

function judge(facts: Facts, view: PartView): Verdict {
  const subject = part(view.part.id);
  if (!view.facts.sources?.some((s) => s.half === 'alone')) return fine(subject);
  const amp = facts
    .netWires(facts.netOf(`${view.part.id}.out`))
    .filter((w) => w.from.part === view.part.id || w.to.part === view.part.id)
    .reduce((sum, w) => sum + (w.owner === 'build' ? (facts.analysis.wires[w.id]?.worstA ?? 0) : 0), 0);
  return found({
    level: 'hazard',
    subject,
    what: `${called(view)} takes up to ${amps(amp)} from one battery of the pair alone: in a day of ${DAY_H} h up to ${plain(amp * DAY_H)} Ah. The other loses nothing, and is overcharged by as much.`,
    todo: 'Make the 12 V with a converter from both batteries, or fit an equaliser made for that current.',
    figures: [
      { label: 'drawn from one battery', value: amp, unit: 'A' },
      { label: 'imbalance in a day', value: amp * DAY_H, unit: 'Ah' },
    ],
  });
}

/** The feed comes from both batteries, and a converter behind its fuse makes the 12 V. */
function throughConverter(facts: Facts, view: PartView): Repair[] {
  const wire = onlyWire(facts.plan, view.part.id, 'out');
  const fuse = wire && facts.parts.get(farEnd(wire, view.part.id).part);
  const far = wire && farEnd(wire, view.part.id).terminal === '1' ? '2' : '1';
  const next = fuse?.kind.kind === 'blade-fuse' ? onlyWire(facts.plan, fuse.part.id, far) : null;
  const settings = partKind('step-down').variants?.find((v) => v.id === CLASS)?.settings;
  if (!fuse || !next || !settings || dumpV(facts) > IN_HAND * CONVERTERS[CLASS].absMaxV) return [];
  return [
    {
      title: 'Take it from both batteries, over a converter to 12 V',
      safe: false,
      edit: (plan) => {
        const [feed, guard, row] = [plan.parts[view.part.id], plan.parts[fuse.part.id], plan.wires[next.id]];
        const to = row && farEnd(row, fuse.part.id);
        const load = to && plan.parts[to.part];
        const ground = load && groundEnd(plan, load.zone);
        if (!feed || !guard || !row || !to || !load || !ground) return null;
        const draft = new Draft(plan);
        const { pair: _pair, ...whole } = feed.settings;
        draft.setPart({ ...feed, settings: whole });
        draft.setPart({ ...guard, settings: { ...guard.settings, voltClass: '58' } });
        const converter = newPart(draft, { kind: 'step-down', ...beside(load, -180, 0), name: '24 V to 12 V', settings: { ...settings, setV: 12 } });
        draft.setWire(movedEnd(row, to, end(converter, 'in'), true));
        newWire(draft, end(converter, 'out'), to, { lengthM: SHORT_M });
        newWire(draft, end(converter, 'gnd'), ground);
        return draft.edit('repair.apply', 'Make 12 V from both batteries');
      },
    },
  ];
}
