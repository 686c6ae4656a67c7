import type { Facts } from '../../analysis/factsTypes.ts';
import { shortestWay } from '../../plan/lengths.ts';
import type { Wire } from '../../plan/types.ts';
import { LENGTH_SLACK } from '../../trade/fitting.ts';
import { defineRule, two, verdicts, wire, wireName } from '../defineRule.ts';
import { change } from '../taps.ts';
import type { Verdict } from '../types.ts';
import { endedWires } from '../wireEnds.ts';

const { fine, found } = verdicts('length-unlikely', 'B16');

export const lengthUnlikely = defineRule({
  id: 'length-unlikely',
  code: 'B16',
  level: 'advice',
  title: 'Length that cannot be right',
  why: 'Every drop, fuse and size rests on how long the wires are. A wire shorter than the way it must go is found out only when it does not reach.',
  source: { text: 'The way over the runs between zones, as measured with a string; 5 % allowed for', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => endedWires(facts).flatMap(({ wire }) => judge(facts, wire)),
  repair: (finding, facts) => {
    const id = finding.subject.id;
    if (overRuns(facts, facts.plan.wires[id]) === null) return [];
    return [
      {
        title: 'Take the length from the runs',
        safe: true,
        edit: (plan) =>
          change(plan, 'wire.set', 'Take the length from the runs', (draft) => {
            const { lengthM: _typed, ...free } = plan.wires[id] ?? {};
            if ('id' in free) draft.setWire(free as Wire);
          }),
      },
    ];
  },
});

/** Cable length over the runs between the zones of a wire's ends, m; 0 within one zone, null where no runs join them. */
function overRuns(facts: Facts, w: Wire | undefined): number | null {
  const a = facts.plan.parts[w?.from.part ?? '']?.zone;
  const b = facts.plan.parts[w?.to.part ?? '']?.zone;
  return a === undefined || b === undefined ? null : (shortestWay(facts.plan, a, b)?.lengthM ?? null);
}

function judge(facts: Facts, w: Wire): Verdict[] {
  if (w.owner !== 'build') return [];
  const subject = wire(w.id);
  const way = overRuns(facts, w);
  if (w.lengthM === undefined) {
    return way !== null
      ? []
      : [
          found({
            level: 'advice',
            subject,
            what: `${wireName(facts, w.id)} has no length: no run joins its two zones, and none is typed. ${two(facts.wireLengthM(w.id))} m are taken for now.`,
            todo: 'Measure the way with a string and type it as a run, or type the wire’s length.',
          }),
        ];
  }
  if (way === null || w.lengthM >= way * (1 - LENGTH_SLACK)) return [fine(subject)];
  return [
    found({
      level: 'advice',
      subject,
      what: `${wireName(facts, w.id)} is ${two(w.lengthM)} m long, and the runs between its two ends are ${two(way)} m.`,
      todo: 'Measure again: either the wire or a run is wrong.',
      figures: [
        { label: 'wire', value: w.lengthM, unit: 'm' },
        { label: 'runs', value: way, unit: 'm' },
      ],
    }),
  ];
}
