import type { Facts } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { USABLE_SHARE } from '../../trade/battery.ts';
import { amps, called, defineRule, part, two, verdicts, wire } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { type KeySense, keySenses } from '../keySense.ts';
import { insidePull, isRail3, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { tapA, vehicleTaps } from '../standing.ts';
import { endingAt } from '../supplyHold.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('broken-sense-reads-on', 'F13');
/** From so many hours on one speaks of days. */
const LONG_H = 48;

export const brokenSenseReadsOn = defineRule({
  id: 'broken-sense-reads-on',
  code: 'F13',
  level: 'advice',
  title: 'A broken sense wire reads as key on',
  why: 'Wires break and plugs work loose. The computer then sees a pin that nothing moves any more: it should take that for “key off” and stop, not for “key on” and run until the battery is flat.',
  source: { text: 'Universal practice: a fault ends in the state that does no harm', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => watched(facts).map(({ sense, use }) => judge(facts, sense, use)),
  repair: (finding, facts) => {
    const here = watched(facts).find(({ sense }) => sense.computer.part.id === finding.subject.id);
    const mode = here?.use.mode;
    if (!here || (mode !== 'in-up' && mode !== 'in-down')) return [];
    const other = mode === 'in-up' ? 'in-down' : 'in-up';
    const title = `Let the computer pull ${pinName(here.use)} ${other === 'in-down' ? 'down' : 'up'} instead`;
    return [typing(here.sense.computer.part.id, { [`gpio${here.use.gpio}Mode`]: other }, title, true)];
  },
});

/** Computers that watch the key, with the pin by which they do. */
function watched(facts: Facts): { sense: KeySense; use: PinUse }[] {
  return keySenses(facts).flatMap((sense) => {
    const use = pinUses(facts).find((u) => u.computer === sense.computer && u.gpio === sense.gpio);
    return use && pulled(facts, use) !== null ? [{ sense, use }] : [];
  });
}

/** Where a pin goes that nothing else moves: to the stronger of its pulls. Null when it has none. */
function pulled(facts: Facts, use: PinUse): 'high' | 'low' | null {
  // The vehicle's line is what has broken off.
  const resistors = pullsOn(facts, use.nets);
  const beside = (other: number, ohm: number): number => 1 / (1 / other + 1 / ohm);
  const up = beside(
    parallelOhm(
      resistors.filter((p) => isRail3(p.volt)).map((p) => p.view),
      'most',
    ),
    insidePull(use, 'up').most,
  );
  const down = beside(
    parallelOhm(
      resistors.filter((p) => p.volt === 0).map((p) => p.view),
      'most',
    ),
    insidePull(use, 'down').most,
  );
  if (!Number.isFinite(up) && !Number.isFinite(down)) return null;
  return up < down ? 'high' : 'low';
}

function judge(facts: Facts, { computer }: KeySense, use: PinUse): Verdict {
  const subject = part(computer.part.id);
  const level = pulled(facts, use);
  const readsOn = computer.s.str('senseActive') === `${level}-when-on`;
  const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
  // What lets go by itself ends the run whatever the pin says.
  if (!readsOn || !ending || ending.holdS !== Number.POSITIVE_INFINITY) return fine(subject);
  const amp = vehicleTaps(facts)
    .filter((t) => ending.feeds.has(t.view))
    .reduce((sum, t) => sum + tapA(facts, t, 'RUN_STOPPED', 'typical'), 0);
  // Nothing runs: nothing runs the battery flat.
  if (amp <= 0) return fine(subject);
  const hours = (USABLE_SHARE * facts.plan.vehicle.batteryAh) / amp;
  return found({
    level: 'advice',
    subject,
    related: [wire(use.wire.id)],
    what: `Should the sense wire break, ${pinName(use)} of ${called(computer)} goes ${level}, which its program takes for “key on”: it runs on with ${amps(amp)}, and after ${hours > LONG_H ? `${two(hours / 24)} days` : `${two(hours)} h`} the engine may not start any more.`,
    todo: 'Pull the pin the other way, so that a broken wire reads as key off, or let a timer or cut-out end it.',
    figures: [
      { label: 'runs on with', value: amp, unit: 'A' },
      { label: 'hours', value: hours, unit: 'h' },
    ],
    state: 'OFF_ASLEEP',
  });
}
