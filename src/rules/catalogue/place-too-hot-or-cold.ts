import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { CLIMATE } from '../../parts/climate.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';

const { fine, found } = verdicts('place-too-hot-or-cold', 'K4');
/** What one can buy, degrees C (common practice, no source). */
const BUYABLE = { leastC: -40, mostC: 85 } as const;

export const placeTooHotOrCold = defineRule({
  id: 'place-too-hot-or-cold',
  code: 'K4',
  level: 'fault',
  title: 'Place too hot or too cold for a part',
  why: 'A parked vehicle in the sun gets hotter than anything at home: the top of the dash reaches 85 °C. An office screen turns black for good at 70 °C; in deep frost its picture crawls.',
  source: { text: 'Temperatures from the part’s sheet; places from memory of cabin soak classes', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    climatic(facts).map((view) => {
      const subject = part(view.part.id);
      const zone = facts.plan.zones[view.part.zone];
      const mostC = view.s.num(CLIMATE.most);
      const leastC = view.s.num(CLIMATE.least);
      if (view.maxC > mostC) {
        return found({
          level: 'fault',
          subject,
          what: `${called(view)} bears ${mostC} °C, and ${zone ? `“${zone.name}”` : 'its place'} gets ${view.maxC} °C when parked in the sun.`,
          todo: 'Move it to a cooler place, or take one made for that heat.',
          figures: [
            { label: 'gets', value: view.maxC, unit: '°C' },
            { label: 'bears', value: mostC, unit: '°C' },
          ],
          state: 'OFF_ASLEEP',
        });
      }
      // Frost is asked of the person: the table's figure is that of any vehicle anywhere.
      if (zone?.minC === undefined || zone.minC >= leastC) return fine(subject);
      const slow = view.kind.kind === 'touch-display';
      return found({
        level: slow ? 'advice' : 'fault',
        subject,
        what: `${called(view)} bears cold down to ${leastC} °C, and “${zone.name}” gets ${zone.minC} °C${slow ? ': its picture crawls until it has warmed up' : ''}.`,
        todo: slow ? 'Take a heated or cold-proof screen, or wait for it.' : 'Take one made for that cold, or warm its place before it starts.',
        figures: [
          { label: 'gets', value: zone.minC, unit: '°C' },
          { label: 'bears', value: leastC, unit: '°C' },
        ],
        state: 'OFF_ASLEEP',
      });
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const gets = finding.figures.find((f) => f.label === 'gets')?.value;
    if (!view || gets === undefined) return [];
    const hot = gets > view.s.num(CLIMATE.most);
    if (hot ? gets > BUYABLE.mostC : gets < BUYABLE.leastC) return [];
    const settings = hot ? { [CLIMATE.most]: BUYABLE.mostC } : { [CLIMATE.least]: BUYABLE.leastC };
    return [
      {
        title: hot ? `Take one that bears ${BUYABLE.mostC} °C` : `Take one that bears ${BUYABLE.leastC} °C`,
        safe: false,
        edit: (plan) => setSettings(plan, view.part.id, settings),
      },
    ];
  },
});

/** Our parts that say what temperatures they bear. */
function climatic(facts: Facts): PartView[] {
  return [...facts.parts.values()].filter((v) => v.part.owner === 'build' && v.kind.settings.some((s) => s.key === CLIMATE.most));
}
