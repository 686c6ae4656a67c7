import { CLIMATE } from '../../parts/climate.ts';
import { LITHIUM_MAX_C } from '../../trade/battery.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';

const { fine, found } = verdicts('lithium-in-heat', 'K6');

export const lithiumInHeat = defineRule({
  id: 'lithium-in-heat',
  code: 'K6',
  level: 'hazard',
  title: 'Lithium cells where it gets hot',
  why: 'A lithium cell that lies hot ages in a summer, swells, and presses on what is around it. One that swells, or that a crash crushes, may burn, and water hardly puts it out. Behind a dash nobody sees it coming.',
  source: { text: 'Cells are stored and used up to 60 °C: cell makers’ sheets (from memory); places from memory of cabin soak classes', grade: 'data sheet' },
  needs: 'graph',
  always: true,
  limits: [
    {
      key: 'lithiumMaxC',
      title: 'Warmest place for lithium cells',
      unit: '°C',
      value: LITHIUM_MAX_C,
      least: 40,
      most: 85,
      basis: 'cell makers’ sheets, from memory; the cell’s own sheet wins',
    },
  ],
  check: (facts) =>
    [...facts.parts.values()].flatMap((view) => {
      if (view.part.owner !== 'build' || !view.kind.settings.some((s) => s.key === CLIMATE.lithium) || !view.s.flag(CLIMATE.lithium)) return [];
      const subject = part(view.part.id);
      const mostC = facts.threshold('lithiumMaxC', LITHIUM_MAX_C);
      if (view.maxC <= mostC) return [fine(subject)];
      const zone = facts.plan.zones[view.part.zone];
      return [
        found({
          level: 'hazard',
          subject,
          what: `${called(view)} has a lithium cell, and ${zone ? `“${zone.name}”` : 'its place'} gets ${view.maxC} °C when parked in the sun; ${mostC} °C is the most for such cells.`,
          todo: 'Take one with supercapacitors or without cells, or move it where it stays cool and no crash reaches it.',
          figures: [
            { label: 'gets', value: view.maxC, unit: '°C' },
            { label: 'most', value: mostC, unit: '°C' },
          ],
          state: 'OFF_ASLEEP',
        }),
      ];
    }),
  repair: (finding) => [typing(finding.subject.id, { [CLIMATE.lithium]: undefined }, 'Take one without a lithium cell', false)],
});
