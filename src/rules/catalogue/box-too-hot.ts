import type { PartView } from '../../analysis/factsTypes.ts';
import { boardOf } from '../../parts/computer/settings.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { BOARD_AIR_MAX_C, BOARD_SUPPLY, BOARD_THROTTLE_C, BOXES, type BoxClass } from '../../trade/boards.ts';
import { called, defineRule, part, plain, three, two, verdicts } from '../defineRule.ts';

const { fine, found } = verdicts('box-too-hot', 'K2');

/** What helps in each box, before moving it. */
const COOLER: Readonly<Record<BoxClass, string>> = {
  closed: 'Give the box holes for air, or a fan besides; or ',
  vented: 'Fit a fan, or ',
  metal: 'Fit a fan, or ',
  open: 'Fit a fan, or ',
  fan: 'Its fan is not enough: ',
};

export const boxTooHot = defineRule({
  id: 'box-too-hot',
  code: 'K2',
  level: 'fault',
  title: 'Computer too hot in its box',
  why: 'All the current a computer takes ends as heat in its box. Behind a dash in summer the air is at 60 °C before it adds anything: busy, it slows itself down and its screen stutters; hotter still it is slow whatever it does, and its memory card ages in a year.',
  source: {
    text: 'Watts per box from practice; chips throttle at 80 to 85 °C (from memory); board currents from the maker’s supply page (read)',
    grade: "fitters' habit",
  },
  needs: 'graph',
  limits: [
    {
      key: 'boardAirMaxC',
      title: 'Warmest air for a computer',
      unit: '°C',
      value: BOARD_AIR_MAX_C,
      least: 40,
      most: 90,
      basis: 'the chip slows itself down at 80 to 85 °C; from memory',
    },
  ],
  check: (facts) =>
    facts.ofKind('computer').flatMap((view) => {
      const subject = part(view.part.id);
      const most = facts.threshold('boardAirMaxC', BOARD_AIR_MAX_C);
      const airC = insideC(view, view.s.str('box') as BoxClass);
      if (airC <= most) return [fine(subject)];
      const box = BOXES[view.s.str('box') as BoxClass];
      const always = airC > Math.max(most, BOARD_THROTTLE_C);
      const assumed = view.part.settings.box === undefined ? ', as taken while nobody has said' : '';
      return [
        found({
          // Up to where the chip throttles by the air alone, it is only slow in high summer, and only while it works hard.
          level: always ? 'fault' : 'advice',
          subject,
          what: `${called(view)} turns ${two(wattOf(view))} W to heat in a box (${box.title}${assumed}) that warms ${two(box.kPerW)} K a watt, in a place of ${view.runningMaxC} °C in high summer: ${Math.round(airC) > most ? Math.round(airC) : three(airC)} °C inside, and above ${plain(most)} °C it slows itself down${always ? '; here it is slow whatever it does' : ' while it works hard'}.`,
          todo: `${COOLER[view.s.str('box') as BoxClass]}move the computer to a cooler place, such as under a seat.`,
          figures: [
            { label: 'heat', value: wattOf(view), unit: 'W' },
            { label: 'air inside', value: airC, unit: '°C' },
          ],
          state: 'RUN_CHARGING',
          band: 'low',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    const most = facts.threshold('boardAirMaxC', BOARD_AIR_MAX_C);
    return (['vented', 'fan'] as const)
      .filter((box) => insideC(view, box) <= most)
      .slice(0, 1)
      .map((box) => ({
        title: box === 'fan' ? 'Fit a fan to its box' : 'Give its box holes for air',
        safe: false,
        edit: (plan) => setSettings(plan, view.part.id, { box }),
      }));
  },
});

/** What a busy board turns to heat, W. */
function wattOf(view: PartView): number {
  return BOARD_SUPPLY.nominalV * boardOf(view.s).busyA;
}

function insideC(view: PartView, box: BoxClass): number {
  return view.runningMaxC + wattOf(view) * BOXES[box].kPerW;
}
