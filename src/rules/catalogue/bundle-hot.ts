import { bundleFactor } from '../../trade/ampacity.ts';
import { BUNDLE_FROM, BUNDLE_SHARE } from '../../trade/fitting.ts';
import { amps, defineRule, two, verdicts, wire, wireName } from '../defineRule.ts';
import { thickEnough, thicken } from '../fixes.ts';
import { wireReports } from '../wireEnds.ts';

const { fine, found } = verdicts('bundle-hot', 'B7');

export const bundleHot = defineRule({
  id: 'bundle-hot',
  code: 'B7',
  level: 'advice',
  title: 'Big bundle with a hard-worked wire',
  why: 'Wires in the middle of a bundle cannot lose their heat, for their neighbours are warm as well. A wire at its limit there is the first to go stiff and brown.',
  source: {
    text: 'Bundle factors of the US electrical code 2014, table 310.15(B)(3)(a) (read); 80 % in a bundle: common practice, no source',
    grade: 'standard',
  },
  needs: 'readings',
  check: (facts) =>
    wireReports(facts).flatMap((w) => {
      // Above its limit another rule speaks; alone or with two others it is no bundle.
      if (facts.plan.wires[w.id]?.owner !== 'build' || w.kN > bundleFactor(BUNDLE_FROM) || w.heatA > w.limitA) return [];
      const subject = wire(w.id);
      if (w.heatA <= BUNDLE_SHARE * w.limitA) return [fine(subject)];
      return [
        found({
          level: 'advice',
          subject,
          what: `${wireName(facts, w.id)} (${w.areaMm2} mm²) lies in a bundle of ${BUNDLE_FROM} loaded wires or more, which leaves ${two(100 * w.kN)} % of its limit, and uses ${two((100 * w.heatA) / w.limitA)} % of that: ${amps(w.heatA)} of ${amps(w.limitA)}.`,
          todo: 'Divide the bundle, or fit the next size.',
          figures: [
            { label: 'carries', value: w.heatA, unit: 'A' },
            { label: 'planning limit', value: w.limitA, unit: 'A' },
          ],
        }),
      ];
    }),
  repair: (finding, facts) => {
    const w = facts.analysis.wires[finding.subject.id];
    return w ? [thicken(new Map([[w.id, thickEnough(facts, w.id, w.heatA / BUNDLE_SHARE)]]), true)] : [];
  },
});
