import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { nearestPreferred, RESISTOR_WATTS, resistorWattsAt } from '../../trade/preferred.ts';
import { LEDS, type LedColour } from '../../trade/semiconductors.ts';
import { farEnd } from '../build.ts';
import { amps, called, defineRule, ohms, part, two, verdicts, volts } from '../defineRule.ts';
import { type LedCircuit, ledCircuit } from '../sensing.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('led-resistor-wrong', 'J9');
/** A lamp that is easily seen takes a third of what an LED stands (fitters' habit). */
const EASY_SHARE = 0.33;
const TOL = 0.05;

export const ledResistorWrong = defineRule({
  id: 'led-resistor-wrong',
  code: 'J9',
  level: 'fault',
  title: 'LED without its resistor, or with the wrong one',
  why: 'An LED does not limit its own current: a little more voltage and it takes a lot more. The resistor in line sets the current, and it must bear the heat of what it drops.',
  source: { text: 'Forward voltage and 20 mA of common indicator LEDs (read); greatest supply of ISO 16750-2', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    facts.ofKind('led').flatMap((view) => {
      const led = ledCircuit(facts, view, 'A', 'K');
      return led ? [judge(view, led)] : [];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const led = view && ledCircuit(facts, view, 'A', 'K');
    if (!view || !led) return [];
    const easyA = EASY_SHARE * view.s.num('ratedA');
    const ohm = nearestPreferred(Math.max(1, (led.supply.hiV - forwardV(view)) / easyA), 'E12', 'up');
    const watt = (led.supply.hiV - forwardV(view)) ** 2 / (ohm * (1 - TOL));
    const ratedW = (tempC: number): number => RESISTOR_WATTS.find((w) => w >= 0.25 && watt <= resistorWattsAt(w, tempC)) ?? 1;
    const [only, ...more] = led.resistors;
    if (more.length > 0) return [];
    if (only) {
      const settings = { ohm, ratedW: Math.max(only.s.num('ratedW'), ratedW(only.maxC)) };
      return [{ title: `Make ${called(only)} ${ohms(ohm)}`, safe: true, edit: (plan) => setSettings(plan, only.part.id, settings) }];
    }
    return cutIn(facts, view, ohm, ratedW(view.maxC));
  },
});

function judge(view: PartView, led: LedCircuit): Verdict {
  const subject = part(view.part.id);
  const ratedA = view.s.num('ratedA');
  const { hiV } = led.supply;
  const related = led.resistors.map((r) => part(r.part.id));
  const spareV = Math.max(0, hiV - forwardV(view));
  if (led.resistors.length === 0) {
    if (spareV === 0) return fine(subject);
    return found({
      level: 'fault',
      subject,
      related: [part(led.supply.view.part.id)],
      ...(led.supply.source.kind === 'pin' ? {} : { floods: true as const }),
      what: `${called(view)} hangs on ${called(led.supply.view)} with no resistor: it drops ${forwardV(view)} V of up to ${volts(hiV)}, and nothing limits its current to ${amps(ratedA)}.`,
      todo: 'Put a resistor in line with it.',
      figures: [{ label: 'LED stands', value: ratedA, unit: 'A' }],
      state: 'RUN_CHARGING',
      band: 'high',
    });
  }
  const amp = spareV / led.leastOhm;
  const hot = led.resistors
    .map((r) => ({ r, watt: amp ** 2 * r.s.num('ohm') * (1 - r.s.num('tol')), allowedW: resistorWattsAt(r.s.num('ratedW'), r.maxC) }))
    .find((h) => h.watt > h.allowedW);
  if (amp <= ratedA && !hot) return fine(subject);
  const figures = [
    { label: 'LED current', value: amp, unit: 'A' },
    { label: 'LED stands', value: ratedA, unit: 'A' },
    ...(hot ? [{ label: 'heat in the resistor', value: hot.watt, unit: 'W' }] : []),
  ];
  const tooMuch = amp > ratedA ? `${called(view)} gets ${amps(amp)} at ${volts(hiV)} and stands ${amps(ratedA)}` : '';
  const tooHot = hot ? `${called(hot.r)} turns ${two(hot.watt)} W into heat and may take ${two(hot.allowedW)} W at ${hot.r.maxC} °C` : '';
  return found({
    level: 'fault',
    subject,
    related,
    what: `${[tooMuch, tooHot].filter(Boolean).join('; ')}.`,
    todo: 'Fit a larger resistor.',
    figures,
    state: 'RUN_CHARGING',
    band: 'high',
  });
}

/** Least forward voltage of an LED, V: as typed, else by its colour. */
function forwardV(view: PartView): number {
  const row = LEDS[view.s.str('colour') as LedColour];
  const typed = view.s.num('vF');
  return typed > 0 ? (typed * row.minV) / row.typV : row.minV;
}

/** A resistor into the only wire at the anode. */
function cutIn(facts: Facts, view: PartView, ohm: number, ratedW: number): Repair[] {
  const [wire, ...more] = wiresOn(facts.plan, view.part.id, 'A');
  if (!wire || more.length > 0) return [];
  const far = facts.parts.get(farEnd(wire, view.part.id).part)!.part;
  const resistor = { kind: 'resistor', zone: far.zone, x: far.x + 150, y: far.y + 40, name: 'LED resistor', settings: { ohm, ratedW } };
  const [a, b] = wire.to.part === view.part.id ? (['1', '2'] as const) : (['2', '1'] as const);
  return [{ title: `Put ${ohms(ohm)} in line`, safe: true, edit: (plan) => splitWire(plan, wire.id, resistor, a, b).edit }];
}
