import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { holdFor } from '../holdEdits.ts';
import { type Held, holdersOf } from '../holders.ts';
import { keyFeeds } from '../keyLine.ts';
import { OTHER_THINGS, watchesKey } from '../keySense.ts';
import { joinInstead } from '../retrigger.ts';
import { endingAt, stopNeedS } from '../supplyHold.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('hold-timer-wrong', 'F9');

export const holdTimerWrong = defineRule({
  id: 'hold-timer-wrong',
  code: 'F9',
  level: 'fault',
  title: 'Hold timer too short or wrongly triggered',
  why: 'A delay-off relay holds for a set time after its trigger has gone, with a supply of its own that stays. Its time is printed as it usually is: at the worst it is a tenth or a third shorter.',
  source: { text: 'Digital timers ±10 %, RC timers ±30 %: practice, no single source', grade: "fitters' habit" },
  needs: 'readings',
  disputed:
    'A timer relay is cheap and draws nothing once open, but the battery must stay connected; a supercapacitor outlasts even a pulled battery, but costs more and ages. Here both pass, each by its sum; a timer is what the tool offers where nothing holds.',
  check: (facts) => holdersOf(facts, 'delay-off-relay').map(({ holder, held }) => judge(facts, holder, held)),
  repair: (finding, facts) => {
    const here = holdersOf(facts, 'delay-off-relay').find((h) => h.holder.part.id === finding.subject.id);
    return here ? repairs(facts, here.holder, here.held, finding) : [];
  },
});

/** Longest time for which it has to hold, s: 0 where no computer that it feeds watches the key. */
function needS(facts: Facts, held: readonly Held[]): number {
  return Math.max(0, ...held.filter((h) => watchesKey(facts, h.computer)).map((h) => stopNeedS(h.computer)));
}

function judge(facts: Facts, relay: PartView, held: readonly Held[]): Verdict {
  const subject = part(relay.part.id);
  const computers = held.map((h) => part(h.computer.part.id));
  const say = (why: string, related: readonly PartView[], what: string, todo: string, figures: Finding['figures'] = []): Verdict =>
    found({
      level: 'fault',
      subject,
      related: [...computers, ...related.map((v) => part(v.part.id))],
      what,
      todo,
      figures,
      state: 'RETAIN_DOOR',
      data: { why },
    });
  const supply = endingAt(facts, relay, '30');
  if (supply?.why === 'line' && supply.by) {
    return say(
      'supply',
      [supply.by],
      `${called(relay)} takes its own supply from ${called(supply.by)}, which falls with the key: it has nothing to hold.`,
      'Feed its terminal 30 from permanent 30, and let the key line trigger it.',
    );
  }
  const trigger = endingAt(facts, relay, '15');
  const other = [...(trigger?.feeds ?? [])].find((f) => f.facts.tap && OTHER_THINGS[f.facts.tap.line]);
  if (other) {
    return say(
      'trigger',
      [other],
      `${called(relay)} is triggered by ${called(other)}, which follows ${OTHER_THINGS[other.facts.tap!.line]} and not the key.`,
      'Trigger it from ignition (15).',
    );
  }
  if (relay.s.num('minOffS') > 0 && deadInStart(facts, relay)) {
    return say(
      'start',
      [],
      `${called(relay)} always runs out once its trigger has gone, and its trigger is dead while the starter turns: ${plain(relay.s.num('holdS'))} s after each start it cuts the running computer.`,
      'Trigger it from ignition (15), which stays live while starting.',
    );
  }
  const leastS = relay.s.num('holdS') * (1 - relay.s.num('holdTol'));
  const need = needS(facts, held);
  if (leastS >= need || held.every((h) => h.ending.holdS >= need)) return fine(subject);
  return say(
    'short',
    [],
    `${called(relay)} is set to ${plain(relay.s.num('holdS'))} s and may be off by ${plain(100 * relay.s.num('holdTol'))} %: it is sure to hold ${plain(leastS)} s, and a stop may take ${plain(need)} s.`,
    'Set a longer time, or fit a timer that keeps it better.',
    [
      { label: 'sure to hold', value: leastS, unit: 's' },
      { label: 'needed', value: need, unit: 's' },
    ],
  );
}

function deadInStart(facts: Facts, relay: PartView): boolean {
  const at = (state: 'RUN_STOPPED' | 'START'): number => facts.across(`${relay.part.id}.15`, `${relay.part.id}.31`, state, 'typical') ?? 0;
  const on = relay.s.num('triggerOnV');
  return at('RUN_STOPPED') > on && at('START') <= on;
}

function repairs(facts: Facts, relay: PartView, held: readonly Held[], finding: Finding): readonly Repair[] {
  switch (finding.data?.why) {
    case 'short': {
      const holdS = holdFor(needS(facts, held), relay.s.num('holdTol'));
      return [{ title: `Let ${called(relay)} hold ${holdS} s`, safe: true, edit: (plan) => setSettings(plan, relay.part.id, { holdS }) }];
    }
    case 'supply':
      return joinInstead(facts, relay, '30', 'Feed', facts.ofKind('feed-30'));
    default:
      return joinInstead(
        facts,
        relay,
        '15',
        'Trigger',
        keyFeeds(facts).filter((f) => f.facts.tap?.line === '15'),
      );
  }
}
