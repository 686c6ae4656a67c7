import { BLADE_RATINGS_A } from '../../trade/fuses.ts';
import { BEYOND, flowing } from '../beyond.ts';
import { ampsApart, defineRule, verdicts, wire, wireName } from '../defineRule.ts';
import { thickEnough, thicken } from '../fixes.ts';
import { wireReports } from '../wireEnds.ts';

const { fine, found } = verdicts('wire-overloaded', 'B3');
/** Less than this is a signal. */
const SIGNAL_A = 1e-3;

export const wireOverloaded = defineRule({
  id: 'wire-overloaded',
  code: 'B3',
  level: 'hazard',
  title: 'Wire carries more than it may',
  why: 'A wire that always carries too much grows hot along its whole length, inside bundles and behind trim where nobody sees it.',
  source: { text: 'Planning limits below ISO 10133, 33 CFR 183.425 and ABYC E-11, with heat and bundling', grade: "fitters' habit" },
  needs: 'readings',
  always: true,
  check: (facts) =>
    wireReports(facts).flatMap((w) => {
      if (facts.plan.wires[w.id]?.owner !== 'build' || w.heatA < SIGNAL_A) return [];
      const subject = wire(w.id);
      if (w.heatA <= w.limitA) return [fine(subject)];
      const [carries, may] = ampsApart(w.heatA, w.limitA);
      return [
        found({
          level: 'hazard',
          subject,
          what:
            w.heatA > BEYOND.amp
              ? `${wireName(facts, w.id)} (${w.areaMm2} mm² at ${w.zoneC} °C) would carry ${flowing(w.heatA)} and may carry ${may}: that is a short circuit.`
              : `${wireName(facts, w.id)} (${w.areaMm2} mm² at ${w.zoneC} °C) carries ${carries} for long and may carry ${may}.`,
          todo:
            w.heatA > BEYOND.amp
              ? 'Find what joins its supply to ground with nothing between, and mend that first.'
              : 'Fit a thicker wire, or carry less over it.',
          figures: [
            ...(w.heatA > BEYOND.amp ? [] : [{ label: 'carries', value: w.heatA, unit: 'A' }]),
            { label: 'planning limit', value: w.limitA, unit: 'A' },
          ],
          state: 'RUN_STOPPED',
          band: 'low',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const w = facts.analysis.wires[finding.subject.id];
    // More than any blade fuse passes is no load: the wire's size is not what is wrong.
    if (!w || w.heatA > Math.max(...BLADE_RATINGS_A)) return [];
    // What protects it must not be more than the new wire carries either.
    const guardA = Math.max(w.protection.from.maxA, w.protection.to.maxA);
    const amp = Math.max(w.heatA, Number.isFinite(guardA) ? guardA : 0);
    return [thicken(new Map([[w.id, thickEnough(facts, w.id, amp)]]), true)];
  },
});
