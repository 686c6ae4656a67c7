import { INSULATION_MARGIN_K } from '../../trade/fitting.ts';
import { defineRule, verdicts, wire, wireName } from '../defineRule.ts';
import { change } from '../taps.ts';
import { wireReports } from '../wireEnds.ts';

const { fine, found } = verdicts('insulation-too-weak', 'B9');
/** Classes of vehicle wire that are stocked, degrees C (ISO 6722 classes B to E, from memory). */
const STOCKED_C: readonly number[] = [105, 125, 150, 200];

export const insulationTooWeak = defineRule({
  id: 'insulation-too-weak',
  code: 'B9',
  level: 'hazard',
  title: 'Insulation too weak for where the wire lies',
  why: 'House wiring softens at 70 °C, and that is what a closed dash reaches in the sun with nothing switched on. Soft insulation lets the copper through at the first edge it lies on.',
  source: { text: 'Classes of ISO 6722 (from memory); 10 K above the hottest place: common practice, no source', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  // A wire that has no class for its place has no current limit there either.
  explains: ['wire-fuse-too-big', 'wire-overloaded', 'return-too-thin'],
  check: (facts) =>
    wireReports(facts).flatMap((w) => {
      const row = facts.plan.wires[w.id];
      if (row?.owner !== 'build' || row.insulationC === undefined) return [];
      const subject = wire(w.id);
      if (row.insulationC >= w.zoneC + INSULATION_MARGIN_K) return [fine(subject)];
      return [
        found({
          level: 'hazard',
          subject,
          what: `${wireName(facts, w.id)} has ${row.insulationC} °C insulation and crosses a place of ${w.zoneC} °C; ${INSULATION_MARGIN_K} °C more are wanted.`,
          todo: `Take wire of the ${classFor(w.zoneC) ?? 'next'} °C class.`,
          figures: [
            { label: 'insulation', value: row.insulationC, unit: '°C' },
            { label: 'hottest place', value: w.zoneC, unit: '°C' },
          ],
        }),
      ];
    }),
  repair: (finding, facts) => {
    const w = facts.analysis.wires[finding.subject.id];
    const insulationC = w ? classFor(w.zoneC) : null;
    if (!w || insulationC === null) return [];
    const title = `Take wire of the ${insulationC} °C class`;
    return [
      {
        title,
        safe: true,
        edit: (plan) =>
          change(plan, 'wire.set', title, (draft) => {
            const row = plan.wires[w.id];
            if (row) draft.setWire({ ...row, insulationC });
          }),
      },
    ];
  },
});

function classFor(zoneC: number): number | null {
  return STOCKED_C.find((c) => c >= zoneC + INSULATION_MARGIN_K) ?? null;
}
