import type { PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { CAPACITOR_LIFE } from '../../trade/capacitors.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';

const { fine, found } = verdicts('capacitor-ages-fast', 'K5');

export const capacitorAgesFast = defineRule({
  id: 'capacitor-ages-fast',
  code: 'K5',
  level: 'advice',
  title: 'Capacitor ages fast in its place',
  why: 'An electrolytic dries out, twice as fast with every 10 K. Printed are hours at its rated temperature; what counts is the place it works in.',
  source: { text: 'Life doubles for each 10 K below the rating: capacitor makers’ technical pages (read)', grade: 'data sheet' },
  needs: 'graph',
  limits: [
    {
      key: 'capacitorLifeH',
      title: 'Life wanted of a capacitor, running',
      unit: 'h',
      value: CAPACITOR_LIFE.wantedH,
      least: 500,
      most: 100_000,
      basis: 'five hundred hours a year for ten years; common practice, no source',
    },
  ],
  check: (facts) =>
    facts.ofKind('capacitor').flatMap((view) => {
      if (!electrolytic(view)) return [];
      const subject = part(view.part.id);
      const wantedH = facts.threshold('capacitorLifeH', CAPACITOR_LIFE.wantedH);
      const lifeH = lastsH(view, view.s.num('ratedC'));
      if (lifeH >= wantedH) return [fine(subject)];
      return [
        found({
          level: 'advice',
          subject,
          what: `${called(view)}, ${view.s.num('lifeH')} h at ${view.s.num('ratedC')} °C, lasts about ${round(lifeH)} h in a place of ${view.runningMaxC} °C; ${round(wantedH)} h are wanted.`,
          todo: 'Take one with a higher rated temperature, or put it in a cooler place.',
          figures: [
            { label: 'lasts', value: lifeH, unit: 'h' },
            { label: 'wanted', value: wantedH, unit: 'h' },
          ],
          state: 'RUN_CHARGING',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const wantedH = facts.threshold('capacitorLifeH', CAPACITOR_LIFE.wantedH);
    const ratedC = view && CAPACITOR_LIFE.ratingsC.find((c) => c > view.s.num('ratedC') && lastsH(view, c) >= wantedH);
    if (ratedC === undefined) return [];
    return [{ title: `Take one rated ${ratedC} °C`, safe: true, edit: (plan) => setSettings(plan, finding.subject.id, { ratedC }) }];
  },
});

/** Wet electrolytics; what holds farads is of another make and is told by its own rules. */
function electrolytic(view: PartView): boolean {
  return view.s.flag('polarised') && view.s.num('farad') < 0.1;
}

function lastsH(view: PartView, ratedC: number): number {
  return view.s.num('lifeH') * 2 ** ((ratedC - view.runningMaxC - CAPACITOR_LIFE.ownK) / 10);
}

function round(hours: number): number {
  return Number(hours.toPrecision(2));
}
