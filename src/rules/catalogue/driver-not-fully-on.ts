import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { baseDrivenA, DRIVERS, GATE_DRIVE_V } from '../../trade/drivers.ts';
import { amps, called, defineRule, ohms, part, verdicts, volts } from '../defineRule.ts';
import { type DrivenBy, pinDrivers } from '../driven.ts';
import { netAt, partsOn } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('driver-not-fully-on', 'E13');
const COIL_LEAST = 0.9;

export const driverNotFullyOn = defineRule({
  id: 'driver-not-fully-on',
  code: 'E13',
  level: 'fault',
  title: 'Transistor not fully switched by 3.3 V',
  why: 'A transistor that is half on takes part of the voltage for itself: the coil does not pull in, and the transistor burns what the coil misses. Many are made for 10 V at their input.',
  source: {
    text: 'Resistance is only sure at the gate voltage its sheet states; current gain of 20 counted on for a switch: common practice',
    grade: 'data sheet',
  },
  needs: 'readings',
  explains: ['coil-will-not-pull-in'],
  check: (facts) => pinDrivers(facts).map((d) => judge(facts, d)),
  repair: (finding) => [
    {
      title: `Fit a driver with a ${DRIVERS.mosfet.title}`,
      safe: false,
      edit: (plan) => {
        const row = plan.parts[finding.subject.id];
        const { fullV, onOhm, ratedA, maxV } = DRIVERS.mosfet;
        const stands = typeof row?.settings.maxV === 'number' ? Math.max(row.settings.maxV, maxV) : maxV;
        return row ? setSettings(plan, row.id, { type: 'mosfet', fullV, onOhm, ratedA, maxV: stands }) : null;
      },
    },
  ],
});

/** The most that the driver has to carry: as solved, and by the coils on its output at the highest supply, A. */
function loadA(facts: Facts, { driver }: DrivenBy): number {
  const solved = facts.solved.map((r) => Math.abs(facts.elementA(driver.part.id, 'switch', r.state, r.band) ?? 0));
  const coils = partsOn(facts, netAt(facts, driver, 'out')).filter(
    ({ view, terminal }) => view.kind.kind === 'relay' && (terminal === '85' || terminal === '86'),
  );
  const byCoils = coils.reduce((sum, { view }) => sum + facts.corners.hiV / (COIL_LEAST * view.s.num('coilOhm')), 0);
  return Math.max(byCoils, ...solved);
}

function judge(facts: Facts, d: DrivenBy): Verdict {
  const { driver } = d;
  const subject = part(driver.part.id);
  const { s } = driver;
  if (s.str('type') === 'mosfet') {
    if (s.num('fullV') <= GATE_DRIVE_V) return fine(subject);
    return found({
      level: 'fault',
      subject,
      what: `${called(driver)} is only sure to be fully on at ${volts(s.num('fullV'))}; a pin gives it ${volts(GATE_DRIVE_V)}.`,
      todo: 'Fit one whose resistance is stated at 2.5 V.',
      figures: [
        { label: 'fully on at', value: s.num('fullV'), unit: 'V' },
        { label: 'a pin gives', value: GATE_DRIVE_V, unit: 'V' },
      ],
    });
  }
  const amp = loadA(facts, d);
  const drivenA = baseDrivenA(s.num('baseOhm'));
  if (amp <= drivenA) return fine(subject);
  return found({
    level: 'fault',
    subject,
    what: `Over its ${ohms(s.num('baseOhm'))} a pin switches ${amps(drivenA)} with ${called(driver)}, and ${amps(amp)} are asked.`,
    todo: 'Fit a MOSFET for logic, or a smaller base resistor if the pin can give it.',
    figures: [
      { label: 'has to carry', value: amp, unit: 'A' },
      { label: 'is driven for', value: drivenA, unit: 'A' },
    ],
  });
}
