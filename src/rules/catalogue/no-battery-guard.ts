import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import { CUT_OUT, UNATTENDED } from '../../trade/standing.ts';
import { BEYOND, flowingFirst } from '../beyond.ts';
import { amps, called, defineRule, part, plain, verdicts, volts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { drawers, parkedKnown } from '../parkedShare.ts';
import { cutOutRepair, cutOutsOf, tapA, vehicleTaps } from '../standing.ts';
import { endingAt } from '../supplyHold.ts';
import type { Tap } from '../taps.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('no-battery-guard', 'G4');

export const noBatteryGuard = defineRule({
  id: 'no-battery-guard',
  code: 'G4',
  level: 'fault',
  title: 'Nothing guards the battery against a load left alone',
  why: 'What hangs on the permanent feed and may run for hours with nobody there empties the starting battery sooner or later. A cut-out lets go while there is still enough left to start the engine.',
  source: { text: 'Levels and times of cut-outs on sale; practice', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => [...permanent(facts).map((tap) => judge(facts, tap)), ...facts.ofKind('low-voltage-cutout').map((view) => setting(facts, view))],
  repair: (finding, facts) => repairs(facts, finding),
});

function permanent(facts: Facts): readonly Tap[] {
  return vehicleTaps(facts, (line) => line === '30');
}

function judge(facts: Facts, tap: Tap): Verdict {
  const subject = part(tap.view.part.id);
  if (!parkedKnown(facts)) return unknown(subject, 'the parked state could not be worked out');
  const guards = cutOutsOf(facts, tap);
  const guardedA = guards.reduce((sum, g) => sum + Math.abs(facts.elementA(g.part.id, 'contact', 'OFF_ASLEEP', 'typical') ?? 0), 0);
  const parkedA = tapA(facts, tap, 'OFF_ASLEEP', 'typical') - guardedA;
  if (parkedA > UNATTENDED.loadA) {
    const beyond = parkedA > BEYOND.amp;
    const most = drawers(facts).find(({ view }) => (view.facts.loads ?? []).some((l) => endingAt(facts, view, l.plus)?.feeds.has(tap.view)))?.view ?? tap.view;
    return found({
      level: 'fault',
      subject: part(most.part.id),
      related: most === tap.view ? [] : [subject],
      what: beyond
        ? `${flowingFirst(parkedA)} would flow out of ${called(tap.view)} while the vehicle stands: that is a short circuit, and nothing cuts it off.`
        : `${amps(parkedA)} flows out of ${called(tap.view)} for as long as the vehicle stands, ${most === tap.view ? '' : `most of it into ${called(most)}, `}and nothing cuts it off before the battery is too low to start.`,
      todo: beyond
        ? 'Find what joins this feed to ground with nothing between, and mend that first.'
        : 'Put a low-voltage cut-out behind the fuse of this feed.',
      figures: beyond ? [] : [{ label: 'left running', value: parkedA, unit: 'A' }],
      state: 'OFF_ASLEEP',
      band: 'typical',
      data: { tap: tap.view.part.id },
    });
  }
  const long = longHeld(facts, tap);
  if (!long) return fine(subject);
  const amp = tapA(facts, tap, 'RUN_STOPPED', 'typical');
  if (amp <= UNATTENDED.loadA) return fine(subject);
  return found({
    level: 'fault',
    subject: part(long.view.part.id),
    related: [subject],
    what: `${called(long.view)} may run on ${called(tap.view)} for ${plain(long.holdS / 3600)} h after key-off, with ${amps(amp)}, and nothing cuts it off before the battery is too low to start.`,
    todo: 'Put a low-voltage cut-out behind the fuse of this feed, or shorten the hold.',
    figures: [
      { label: 'left running', value: amp, unit: 'A' },
      { label: 'for', value: long.holdS, unit: 's' },
    ],
    state: 'RETAIN_DOOR',
    band: 'typical',
    data: { tap: tap.view.part.id },
  });
}

/** A computer that a timer or latch keeps running for hours, with no cut-out on the way. */
function longHeld(facts: Facts, tap: Tap): { view: PartView; holdS: number } | null {
  for (const view of facts.ofKind('computer')) {
    for (const load of view.facts.loads ?? []) {
      const ending = endingAt(facts, view, load.plus);
      if (!ending?.feeds.has(tap.view) || !Number.isFinite(ending.holdS) || ending.holdS <= UNATTENDED.aloneS) continue;
      if (![...ending.contacts].some((c) => c.kind.kind === 'low-voltage-cutout')) return { view, holdS: ending.holdS };
    }
  }
  return null;
}

/** What a cut-out must at least be set to in this vehicle. */
function least(facts: Facts): Readonly<Record<'cutV' | 'delayS' | 'reconnectV', number>> {
  const k = facts.plan.vehicle.systemV / 12;
  return { cutV: k * CUT_OUT.leastV, delayS: CUT_OUT.leastDelayS, reconnectV: k * CUT_OUT.backV };
}

/** Is a cut-out that is there set to levels at which it helps? */
function setting(facts: Facts, view: PartView): Verdict {
  const subject = part(view.part.id);
  const want = least(facts);
  const [cutV, backV, delayS] = [view.s.num('cutV'), view.s.num('reconnectV'), view.s.num('delayS')];
  const say = (level: 'fault' | 'advice', what: string, todo: string): Verdict =>
    found({ level, subject, what: `${called(view)} ${what}.`, todo, state: 'OFF_ASLEEP', data: { set: true } });
  if (cutV < want.cutV)
    return say('fault', `cuts off below ${volts(cutV)} only, where the engine may not start any more`, `Set it to ${volts(want.cutV)} or a little above.`);
  if (delayS < want.delayS)
    return say('fault', `cuts off after ${plain(delayS)} s already: the dip of a start is enough`, `Set its delay to ${want.delayS} s or more.`);
  if (backV < want.reconnectV)
    return say(
      'advice',
      `joins again above ${volts(backV)}, which a battery at rest recovers to: it cuts in and out until the battery is empty`,
      `Let it join again above ${volts(want.reconnectV)}, which only charging brings.`,
    );
  return fine(subject);
}

function repairs(facts: Facts, finding: Finding): readonly Repair[] {
  if (finding.data?.set) {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    const low = Object.entries(least(facts)).filter(([key, value]) => view.s.num(key) < value);
    const words = listed(low.map(([key, value]) => (key === 'delayS' ? `${value} s` : volts(value))));
    return [typing(view.part.id, Object.fromEntries(low), `Set ${called(view)} to ${words}`, false)];
  }
  const tap = permanent(facts).find((t) => t.view.part.id === finding.data?.tap);
  return tap ? cutOutRepair(facts, tap) : [];
}
