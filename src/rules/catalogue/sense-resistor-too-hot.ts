import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { RESISTOR_WATTS, resistorWattsAt } from '../../trade/preferred.ts';
import { OPTOS, type OptoType } from '../../trade/semiconductors.ts';
import { BEYOND, heating } from '../beyond.ts';
import { amps, called, defineRule, ohms, part, two, verdicts, volts } from '../defineRule.ts';
import { greatestLedA, type LedCircuit, sensors } from '../sensing.ts';
import { largestOhm, ledStands } from '../sensingChoice.ts';

const { fine, found } = verdicts('sense-resistor-too-hot', 'D1');
/** Above this share of what it stands in its place a resistor is hotter than one likes (fitters' habit). */
const WARM = 0.6;

export const senseResistorTooHot = defineRule({
  id: 'sense-resistor-too-hot',
  code: 'D1',
  level: 'hazard',
  title: 'Resistor of the key sensor gets too hot',
  why: 'The resistor takes nearly the whole supply, and its heat grows with the square of it: what is lukewarm on the bench at 12.6 V may scorch at 16 V, in a place that is hot already.',
  source: {
    text: 'Resistor makers’ derating from 70 °C (read); greatest supply 16 V or 32 V of ISO 16750-2; least forward voltage from practice',
    grade: 'data sheet',
  },
  needs: 'graph',
  explains: ['sense-led-overdriven'],
  check: (facts) => heats(facts).map((h) => verdictOf(facts, h)),
  repair: (finding, facts) => {
    const h = heats(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!h) return [];
    const repairs = [];
    const ohm = h.led.resistors.length === 1 ? largestOhm(facts, h.opto) : null;
    if (ohm !== null && heatW(h.led, h.led.supply.hiV, h.view, ohm) <= WARM * h.allowedW) {
      repairs.push({ title: `Fit ${ohms(ohm)}`, safe: true, edit: (plan: Facts['plan']) => setSettings(plan, h.view.part.id, { ohm }) });
    }
    const ratedW = RESISTOR_WATTS.find((w) => h.watt <= WARM * resistorWattsAt(w, h.view.maxC));
    const sensor = sensors(facts).find((x) => x.opto === h.opto)!;
    if (ratedW !== undefined && ledStands(facts, sensor, h.led.leastOhm)) {
      repairs.push({
        title: `Fit a ${ratedW} W resistor`,
        safe: repairs.length === 0,
        edit: (plan: Facts['plan']) => setSettings(plan, h.view.part.id, { ratedW }),
      });
    }
    return repairs;
  },
});

interface Heat {
  readonly opto: PartView;
  readonly view: PartView;
  readonly led: LedCircuit;
  readonly watt: number;
  readonly allowedW: number;
}

/** Every resistor in line with a sensing LED, with its worst heat. */
function heats(facts: Facts): Heat[] {
  const byResistor = new Map<PartView, Heat>();
  for (const { opto, led } of sensors(facts)) {
    for (const view of led?.resistors ?? []) {
      const watt = heatW(led!, led!.supply.hiV, view);
      if (watt <= (byResistor.get(view)?.watt ?? -1)) continue;
      byResistor.set(view, { opto, view, led: led!, watt, allowedW: resistorWattsAt(view.s.num('ratedW'), view.maxC) });
    }
  }
  return [...byResistor.values()];
}

/** Heat in one resistor of the chain, W; `ohm` in place of its own value. */
function heatW(led: LedCircuit, volt: number, view: PartView, ohm?: number): number {
  const least = (ohm ?? view.s.num('ohm')) * (1 - view.s.num('tol'));
  const chain = led.leastOhm + least - view.s.num('ohm') * (1 - view.s.num('tol'));
  const amp = greatestLedA(volt, chain);
  const beside = led.hops.find((h) => h.views.includes(view))!;
  // Resistors side by side share the current by their conductance.
  const share = beside.views.length === 1 ? 1 : beside.ohm / view.s.num('ohm');
  return (amp * share) ** 2 * least;
}

/** Heat with nominal values: what a meter finds on a usual part, W. */
function usualW({ led, opto, view }: Heat, volt: number): number {
  const amp = Math.max(0, volt - led.diodeV - OPTOS[opto.s.str('type') as OptoType].vFTypV) / ((led.leastOhm + led.mostOhm) / 2);
  const beside = led.hops.find((x) => x.views.includes(view))!;
  const share = beside.views.length === 1 ? 1 : beside.ohm / view.s.num('ohm');
  return (amp * share) ** 2 * view.s.num('ohm');
}

function verdictOf(facts: Facts, h: Heat) {
  const subject = part(h.view.part.id);
  if (h.watt <= WARM * h.allowedW) return fine(subject);
  const tooHot = h.watt > h.allowedW;
  const { hiV } = h.led.supply;
  const beyond = h.watt > BEYOND.watt;
  const named = `${called(h.view)} (${ohms(h.view.s.num('ohm'))}, ${h.view.s.num('ratedW')} W)`;
  const usualV = h.led.supply.vehicle ? facts.corners.chargeV : hiV;
  return found({
    level: tooHot ? 'hazard' : 'advice',
    subject,
    related: [part(h.opto.part.id)],
    what: beyond
      ? `${named} is far too small for a sensor: at ${volts(hiV)} it would turn ${heating(h.watt)} into heat and may take ${two(h.allowedW)} W at ${h.view.maxC} °C. It burns at once.`
      : `${named} turns ${two(h.watt)} W into heat at ${volts(hiV)} and ${amps(greatestLedA(hiV, h.led.leastOhm))}; ${tooHot ? 'it may take' : 'that is near the'} ${two(h.allowedW)} W ${tooHot ? '' : 'it may take '}at ${h.view.maxC} °C. At ${volts(usualV)} it is ${two(usualW(h, usualV))} W.`,
    todo: tooHot
      ? 'Fit a larger resistance, a resistor for more power, or two in line.'
      : 'Fit a resistor for more power, or a larger resistance if the sensor still works with it.',
    figures: [
      ...(beyond ? [] : [{ label: 'heat', value: h.watt, unit: 'W' }]),
      { label: 'may take', value: h.allowedW, unit: 'W' },
      ...(beyond ? [] : [{ label: 'heat at charging voltage', value: usualW(h, usualV), unit: 'W' }]),
    ],
    state: 'RUN_CHARGING',
    band: 'high',
  });
}
