import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { coilHeat, ECONOMY_COIL_OHM } from '../../trade/coils.ts';
import { BEYOND } from '../beyond.ts';
import { type Coil, coils } from '../coilMargins.ts';
import { called, defineRule, ohms, part, three, two, verdicts, volts } from '../defineRule.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('coil-overheats', 'J4');

export const coilOverheats = defineRule({
  id: 'coil-overheats',
  code: 'J4',
  level: 'fault',
  title: 'Coil overheats at high supply',
  why: 'A coil takes power with the square of the voltage. With the engine charging on a hot day it gets a third more than its figure says, hour after hour, until its varnish browns and turns short.',
  source: { text: 'Class F insulation 155 °C, IEC 60085 (from memory); coil rise from a relay maker’s sheet (read); the rest calculated', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => coils(facts).flatMap((c) => judge(facts, c)),
  repair: (finding, facts) => {
    const c = coils(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!c) return [];
    const ohm = (ECONOMY_COIL_OHM * c.nominalV ** 2) / 12 ** 2;
    // The new coil rises with its own power; what a watt warms stays.
    const rise = c.view.s.num('riseK') * (c.view.s.num('coilOhm') / ohm);
    if (ohm <= c.view.s.num('coilOhm') || heatOf(facts, c, { coilOhm: ohm, riseK: rise }).hotC > c.view.s.num('coilMaxC')) return [];
    return [
      {
        title: `Fit a relay with a coil of ${ohms(ohm)}`,
        safe: false,
        edit: (plan) => setSettings(plan, c.view.part.id, { coilOhm: ohm, riseK: Math.round(rise) }),
      },
    ];
  },
});

function judge(facts: Facts, c: Coil): Verdict[] {
  if (c.view.kind.kind !== 'relay' || worstV(facts, c) < c.nominalV / 2) return [];
  const subject = part(c.view.part.id);
  const mostC = c.view.s.num('coilMaxC');
  const { watt, hotC } = heatOf(facts, c);
  if (hotC <= mostC) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      what: `The coil of ${called(c.view)} takes ${two(watt)} W at ${volts(worstV(facts, c))} and ${hotC > BEYOND.hotC ? `passes the ${three(mostC)} °C of its insulation, in a place of ${c.view.runningMaxC} °C, long before it comes to rest: it burns` : `gets ${three(hotC)} °C in a place of ${c.view.runningMaxC} °C; ${three(mostC)} °C is the most for its insulation`}.`,
      todo: 'Move it to a cooler place, or fit a relay whose coil takes less, or one with an economy drive.',
      figures: [
        { label: 'coil power', value: watt, unit: 'W' },
        hotC > BEYOND.hotC ? { label: 'insulation stands', value: mostC, unit: '°C' } : { label: 'coil gets', value: hotC, unit: '°C' },
      ],
      state: 'RUN_CHARGING',
      band: 'high',
    }),
  ];
}

function worstV(facts: Facts, c: Coil): number {
  return Math.abs(facts.across(c.plus, c.minus, 'RUN_CHARGING', 'high') ?? 0);
}

function heatOf(
  facts: Facts,
  c: Coil,
  own: { readonly coilOhm: number; readonly riseK: number } = { coilOhm: c.view.s.num('coilOhm'), riseK: c.view.s.num('riseK') },
) {
  return coilHeat({ volt: worstV(facts, c), ohm: own.coilOhm, nominalV: c.nominalV, riseK: own.riseK, aroundC: c.view.runningMaxC });
}
