import { movingRuns } from '../../plan/lengths.ts';
import { LOOP_M } from '../../trade/fitting.ts';
import { defineRule, verdicts, wire, wireName } from '../defineRule.ts';
import { change } from '../taps.ts';
import { endedWires } from '../wireEnds.ts';

const { fine, found } = verdicts('moving-without-loop', 'B11');

export const movingWithoutLoop = defineRule({
  id: 'moving-without-loop',
  code: 'B11',
  level: 'hazard',
  title: 'Wire over something that moves',
  why: 'A wire that is bent at the same spot each time a door opens breaks strand by strand, inside its insulation, where nobody sees it. Over a tilting cab or a steering column the stump may touch what it must not.',
  source: { text: 'Fine strands in a ribbed tube, loop of eight cable diameters, 150 mm to spare: common practice, no source', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  check: (facts) =>
    endedWires(facts).flatMap(({ wire: w }) => {
      const runs = w.owner === 'build' ? movingRuns(facts.plan, w) : [];
      if (runs.length === 0) return [];
      const subject = wire(w.id);
      if (w.looped) return [fine(subject)];
      const worst = runs.find((r) => r.moving === 'tilt') ?? runs[0]!;
      const between = `“${facts.plan.zones[worst.a]?.name ?? worst.a}” and “${facts.plan.zones[worst.b]?.name ?? worst.b}”`;
      return [
        found({
          level: worst.moving === 'tilt' ? 'hazard' : 'fault',
          subject,
          what: `${wireName(facts, w.id)} crosses ${worst.moving === 'tilt' ? 'a cab or column that tilts' : 'a hinge'} between ${between} with no loop for it.`,
          todo: `Take a lead of fine strands in a ribbed tube, held on both sides, with ${LOOP_M} m to spare, so that it bends wide and never pulls.`,
        }),
      ];
    }),
  repair: (finding, facts) => {
    const id = finding.subject.id;
    const lengthM = Math.round((facts.wireLengthM(id) + LOOP_M) * 100) / 100;
    const title = `Fine strands in a tube, with ${LOOP_M} m to spare`;
    return [
      {
        title,
        safe: true,
        edit: (plan) =>
          change(plan, 'wire.set', title, (draft) => {
            const row = plan.wires[id];
            if (row) draft.setWire({ ...row, looped: true, lengthM });
          }),
      },
    ];
  },
});
