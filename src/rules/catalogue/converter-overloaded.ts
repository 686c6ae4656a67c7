import type { Facts } from '../../analysis/factsTypes.ts';
import { junctionC } from '../../trade/formulas.ts';
import { BEYOND } from '../beyond.ts';
import { amps, ampsApart, called, defineRule, part, three, two, verdicts } from '../defineRule.ts';
import { allowedOutputA, swapConverter } from '../fixes.ts';
import { lossW, ownHeat } from '../ownHeat.ts';
import { type Converter, converters, outputA } from '../rails.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('converter-overloaded', 'C3');
/** Share of what it gives that leaks beside the loads: no reason to speak (common practice, no source). */
const LEAKS = 1e-3;

export const converterOverloaded = defineRule({
  id: 'converter-overloaded',
  code: 'C3',
  level: 'fault',
  title: 'Converter too small or too hot for the load',
  why: 'The figure on a module holds for a bench at 25 °C and for minutes. Behind a dash in July it must give everything at once: the computer at work, the display white, each USB device.',
  source: { text: '80 % of the rating, falling by half from 45 to 85 °C: common practice; own heat from its data sheet', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => converters(facts).flatMap((c) => (c.view.kind.kind === 'step-down' ? judge(facts, c) : [])),
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!c) return [];
    const seenV = facts.seenSurgeV(c.inKey);
    const { heatA } = outputA(facts, c);
    return swapConverter(
      facts,
      c,
      (x) =>
        x.ratedA >= c.view.s.num('ratedA') &&
        0.9 * x.absMaxV >= seenV &&
        junctionC(c.view.runningMaxC, lossW(x.setV, heatA, x.etaFull), x.rthKPerW) <= x.tjMaxC,
    );
  },
});

function judge(facts: Facts, c: Converter): Verdict[] {
  const { peakA, heatA } = outputA(facts, c);
  if (peakA < 1e-3) return [];
  const subject = part(c.view.part.id);
  const s = c.view.s;
  const ratedA = s.num('ratedA');
  const allowedA = allowedOutputA(ratedA, c.view.runningMaxC);
  const { watt, hotC } = ownHeat(facts, c);
  const figures = [
    { label: 'most drawn', value: peakA, unit: 'A' },
    { label: 'drawn for long', value: heatA, unit: 'A' },
    { label: 'gives for long', value: allowedA, unit: 'A' },
    ...(hotC <= BEYOND.hotC ? [{ label: 'gets as warm as', value: hotC, unit: '°C' }] : [{ label: 'may get as warm as', value: s.num('tjMaxC'), unit: '°C' }]),
  ];
  const bad = (what: string): Verdict[] => [
    found({
      level: 'fault',
      subject,
      what,
      todo: 'Fit the next size up, in a cooler place, or share the load between two converters.',
      figures,
      state: 'RUN_STOPPED',
      band: 'low',
    }),
  ];
  if (peakA > ratedA) {
    const [most, rated] = ampsApart(peakA, ratedA);
    return bad(`${called(c.view)} must give ${most} with everything at its most, and is rated ${rated}.`);
  }
  if (heatA > allowedA * (1 + LEAKS)) {
    const [asked, gives] = ampsApart(heatA, allowedA);
    return bad(
      `${called(c.view)} must give ${asked} for long; rated ${amps(ratedA)}, at ${c.view.runningMaxC} °C it should give ${gives} (80 % of the rating, less for the heat).`,
    );
  }
  if (hotC > s.num('tjMaxC')) {
    const may = three(s.num('tjMaxC'));
    return bad(
      hotC > BEYOND.hotC
        ? `${called(c.view)} turns ${two(watt)} W into heat with ${amps(heatA)} out (${two(s.num('rthKPerW'))} K/W): it passes its limit of ${may} °C long before it comes to rest, and shuts down or fails.`
        : `${called(c.view)} would warm itself to ${three(hotC)} °C with ${amps(heatA)} out (${two(watt)} W, ${two(s.num('rthKPerW'))} K/W) and may get ${may} °C.`,
    );
  }
  return [fine(subject)];
}
