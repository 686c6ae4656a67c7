import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import type { Band } from '../../plan/types.ts';
import { parkedDays } from '../../trade/battery.ts';
import { COIL_RESTS_A } from '../../trade/standing.ts';
import { amps, called, defineRule, part, two, verdicts } from '../defineRule.ts';
import { inTurn, turnRound } from '../fixes.ts';
import { parkedKnown } from '../parkedShare.ts';
import { joinInstead } from '../retrigger.ts';
import { endingAt } from '../supplyHold.ts';
import type { Repair } from '../types.ts';

const { fine, found, unknown } = verdicts('coil-on-while-parked', 'G5');
const BANDS: readonly Band[] = ['typical', 'high', 'low'];

export const coilOnWhileParked = defineRule({
  id: 'coil-on-while-parked',
  code: 'G5',
  level: 'fault',
  title: 'Relay coil energised while parked',
  why: 'A coil takes as much as a small lamp, all night and every night. A relay belongs at rest while the vehicle stands: what must be on then is drawn over the contact that closes at rest, what must be off over the other.',
  source: { text: 'Universal practice; coils of 12 V relays take 0.13 to 0.15 A (makers’ sheets, from memory)', grade: "fitters' habit" },
  needs: 'readings',
  explains: ['parked-draw-too-high', 'battery-flat-too-soon', 'no-battery-guard'],
  check: (facts) =>
    facts.ofKind('relay', 'delay-off-relay').flatMap((view) => {
      const subject = part(view.part.id);
      if (!endingAt(facts, view, plusOf(view))) return [];
      if (!parkedKnown(facts)) return [unknown(subject, 'the parked state could not be worked out')];
      let [amp, band]: [number, Band] = [0, 'typical'];
      for (const b of BANDS) {
        const here = Math.abs(facts.elementA(view.part.id, 'coil', 'OFF_ASLEEP', b) ?? 0);
        if (here > 1.001 * amp) [amp, band] = [here, b];
      }
      if (amp <= COIL_RESTS_A) return [fine(subject)];
      const days = parkedDays(facts.plan.vehicle.batteryAh, amp);
      return [
        found({
          level: 'fault',
          subject,
          what: `The coil of ${called(view)} takes ${amps(amp)} while the vehicle stands: by itself it brings the battery to where the engine may not start in ${two(days)} days.`,
          todo: 'Let a line that falls with the key work it, and take the load from the contact that is then right.',
          figures: [
            { label: 'coil, parked', value: amp, unit: 'A' },
            { label: 'days', value: days, unit: 'days' },
          ],
          state: 'OFF_ASLEEP',
          band,
        }),
      ];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    if (view.kind.kind === 'delay-off-relay') return joinInstead(facts, view, '15', 'Trigger');
    return workFromKey(facts, view);
  },
});

function plusOf(view: PartView): string {
  return view.kind.kind === 'relay' ? '86' : '30';
}

/** A coil that hangs on a line that stays is worked by the key; a load on the contact that closes at rest then goes to the other. */
function workFromKey(facts: Facts, view: PartView): Repair[] {
  if (endingAt(facts, view, '86')?.holdS !== Number.POSITIVE_INFINITY) return [];
  const worked = joinInstead(facts, view, '86', 'Work')[0];
  if (!worked) return [];
  const onRest = wiresOn(facts.plan, view.part.id, '87a').length > 0;
  if (!onRest) return [worked];
  const title = `${worked.title}, with its load on the other contact`;
  const turned = turnRound(view, '87', '87a', title);
  return [{ title, safe: false, edit: (plan) => inTurn(plan, 'repair.apply', title, [worked.edit, turned.edit]) }];
}
