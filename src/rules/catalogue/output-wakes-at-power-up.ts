import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { STAYS_OFF_V } from '../../trade/drivers.ts';
import { RAIL3 } from '../../trade/logic.ts';
import { called, defineRule, ohms, part, plain, verdicts, volts } from '../defineRule.ts';
import { type DrivenBy, pinDrivers } from '../driven.ts';
import { movePin } from '../movePin.ts';
import { isRail3, parallelOhm, pinName, pullsOn } from '../pins.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('output-wakes-at-power-up', 'E12');
/** Resistor from a driver's input to ground that outweighs the board's own pull-up, ohm (common practice, no source). */
const STRONGER_OHM = 4700;
// What moves or heats makes a danger of it; no part on the shelf does either, so a line of the sheet's checklist asks for that.

export const outputWakesAtPowerUp = defineRule({
  id: 'output-wakes-at-power-up',
  code: 'E12',
  level: 'fault',
  title: 'An output comes on by itself at power-up',
  why: 'From power-on until a program takes the pin, a resistor inside the board holds it: high at GPIO 0 to 8, low at the others. What hangs on a high one is on for the whole start.',
  source: { text: 'Board maker’s pin pages: pulls from power-on and their spread (read)', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) => pinDrivers(facts).map((d) => judge(facts, d)),
  repair: (finding, facts) => {
    const d = pinDrivers(facts).find((x) => x.driver.part.id === finding.subject.id);
    if (!d) return [];
    const move = movePin(facts, d.use, undefined, (cell) => cell.bootPull === 'down');
    const id = d.driver.part.id;
    const stronger = bootV(facts, d, STRONGER_OHM) <= STAYS_OFF_V;
    return [
      ...(move ? [{ ...move, title: move.title.replace('Move it', 'Move its pin') }] : []),
      ...(stronger
        ? [
            {
              title: `Fit ${ohms(STRONGER_OHM)} from its input to ground`,
              safe: false,
              edit: (plan: Facts['plan']) => (plan.parts[id] ? setSettings(plan, id, { pullDownOhm: STRONGER_OHM }) : null),
            },
          ]
        : []),
    ];
  },
});

/** The driver's input from power-on, at its most, V. */
function bootV(facts: Facts, { driver, use }: DrivenBy, pullDownOhm = driver.s.num('pullDownOhm')): number {
  const pulls = pullsOn(facts, use.nets);
  const of = (up: boolean) => pulls.filter((p) => (up ? isRail3(p.volt) : p.volt === 0)).map((p) => p.view);
  const own = use.logic.pullMinOhm;
  const inside = (way: 'up' | 'down'): number => (use.cell.bootPull === way ? 1 / (way === 'up' ? own : use.logic.pullMaxOhm) : 0);
  const upG = 1 / parallelOhm(of(true), 'least') + inside('up') + 1 / (use.cell.fixedPullUpOhm ?? Number.POSITIVE_INFINITY);
  const downG = 1 / parallelOhm(of(false), 'most') + inside('down') + 1 / pullDownOhm;
  return (RAIL3.maxV * upG) / (upG + downG);
}

function judge(facts: Facts, d: DrivenBy): Verdict {
  const { driver, use } = d;
  const subject = part(driver.part.id);
  const volt = bootV(facts, d);
  if (volt <= STAYS_OFF_V) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(use.computer.part.id)],
    what: `From power-on until its program runs, some ${plain(use.computer.s.num('bootS'))} s, ${pinName(use)} stands at up to ${volts(volt)}: ${called(driver)} is on, or half on. Below ${volts(STAYS_OFF_V)} it stays off.`,
    todo: 'Move it to a pin from GPIO 9 upwards, which starts low, or fit a stronger resistor from its input to ground.',
    figures: [
      { label: 'at power-on', value: volt, unit: 'V' },
      { label: 'stays off below', value: STAYS_OFF_V, unit: 'V' },
    ],
  });
}
