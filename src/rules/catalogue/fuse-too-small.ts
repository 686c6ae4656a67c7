import { smallestFuseA } from '../../analysis/choose.ts';
import { LOADING, tempFactor } from '../../trade/fuses.ts';
import { ampsApart, called, defineRule, part, verdicts } from '../defineRule.ts';
import { change } from '../taps.ts';
import { guardedBy } from '../wireEnds.ts';

const { fine, found } = verdicts('fuse-too-small', 'A4');

export const fuseTooSmall = defineRule({
  id: 'fuse-too-small',
  code: 'A4',
  level: 'fault',
  title: 'Fuse too small for the steady load',
  why: 'A converter draws more when the battery is tired: it makes the same watts from fewer volts. A fuse that survives with the engine running then dies on the one cold morning that counts.',
  source: { text: 'Fuse makers’ guides: at most 75 % of the rating at 25 °C (from memory), less when hot', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) =>
    facts.ofKind('blade-fuse').flatMap((view) => {
      const fuse = facts.analysis.fuses[view.part.id];
      if (!fuse || fuse.heatA < 1e-4) return [];
      const subject = part(view.part.id);
      if (fuse.heatA <= fuse.allowedA) return [fine(subject)];
      const [asked, holds] = ampsApart(fuse.heatA, fuse.allowedA);
      return [
        found({
          level: 'fault',
          subject,
          what: `${called(view)} must hold ${asked} at ${facts.corners.loV} V, but at ${view.runningMaxC} °C a ${fuse.ratingA} A fuse holds ${holds} for good (${Math.round(LOADING * 100)} % of its rating, times ${tempFactor(view.runningMaxC).toFixed(2)} for the heat).`,
          todo: 'Fit the next size up, and check that the wires behind it carry it.',
          figures: [
            { label: 'steady load at the lowest supply', value: fuse.heatA, unit: 'A' },
            { label: 'fuse holds', value: fuse.allowedA, unit: 'A' },
          ],
          state: 'RUN_STOPPED',
          band: 'low',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const fuse = facts.analysis.fuses[finding.subject.id];
    const next = view && fuse ? smallestFuseA(fuse.heatA, view.runningMaxC) : null;
    if (!view || next === null) return [];
    const behind = guardedBy(facts, view.part.id);
    const thin = behind.some((w) => facts.plan.wires[w.id]?.owner === 'build' && w.limitA < next);
    return [
      {
        title: thin ? `Fit a ${next} A fuse and let the wires behind it grow` : `Fit a ${next} A fuse`,
        safe: !thin,
        edit: (plan) =>
          change(plan, 'fuse.rating', `Fit a ${next} A fuse`, (draft) => {
            const p = plan.parts[view.part.id];
            if (p) draft.setPart({ ...p, settings: { ...p.settings, ratingA: next } });
            for (const w of behind) {
              const row = plan.wires[w.id];
              if (row?.owner !== 'build' || w.limitA >= next || row.areaMm2 === undefined) continue;
              const { areaMm2: _typed, ...free } = row;
              draft.setWire(free);
            }
          }),
      },
    ];
  },
});
