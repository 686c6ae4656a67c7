import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { Draft } from '../../plan/draft.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Plan } from '../../plan/types.ts';
import { isLive } from '../../trade/lines.ts';
import { addSensor, freePin } from '../build.ts';
import type { FindingParts } from '../defineRule.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { holdFor, holdInstead } from '../holdEdits.ts';
import { fusedLine, keyFeeds } from '../keyLine.ts';
import { watchesKey } from '../keySense.ts';
import { sensors } from '../sensing.ts';
import { carriedBy, storesOf, sureEnding } from '../storeHold.ts';
import { type Ending, endingAt, holdingPin, stopNeedS } from '../supplyHold.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('power-gone-too-soon', 'F1');

export const powerGoneTooSoon = defineRule({
  id: 'power-gone-too-soon',
  code: 'F1',
  level: 'fault',
  title: 'Power goes away before the computer has finished',
  why: 'A computer that loses its power while it writes can damage its storage, and one day it does not start again. It wants to be told of key-off and then left with power until it has stopped.',
  source: { text: 'Board maker’s advice on sudden power loss (read); times and the quarter of margin from practice', grade: "fitters' habit" },
  needs: 'graph',
  explains: ['hold-timer-wrong', 'storage-not-guarded'],
  check: (facts) => fed(facts).flatMap(({ computer, ending }) => judge(facts, computer, ending)),
  repair: (finding, facts) => {
    const here = fed(facts).find((f) => f.computer.part.id === finding.subject.id);
    return here ? repairs(facts, here.computer, here.ending) : [];
  },
});

/** Computers that a feed or battery reaches. */
function fed(facts: Facts): { computer: PartView; ending: Ending }[] {
  return facts.ofKind('computer').flatMap((computer) => {
    const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
    return ending ? [{ computer, ending }] : [];
  });
}

function judge(facts: Facts, computer: PartView, supply: Ending): Verdict[] {
  const ending = sureEnding(facts, computer, supply);
  const subject = part(computer.part.id);
  const need = stopNeedS(computer);
  const say = (f: Pick<FindingParts, 'what' | 'todo'> & Partial<FindingParts>): Verdict[] => [
    found({ level: 'fault', subject, related: ending.by ? [part(ending.by.part.id)] : [], state: 'RETAIN_DOOR', band: null, ...f }),
  ];
  if (!watchesKey(facts, computer)) {
    return say({
      what: `No pin of ${called(computer)} watches the key, so it never hears of key-off and runs until its power ${Number.isFinite(ending.holdS) ? 'falls' : 'falls or the battery is flat'}.`,
      todo: 'Add a key sensor to one of its pins.',
      data: { why: 'deaf' },
    });
  }
  const holdS = late(facts, computer, ending) ? 0 : ending.holdS;
  if (holdS >= need) return [fine(subject)];
  const store = storesOf(facts).find((c) => endingAt(facts, c, '+') !== null);
  const carried = carriedBy(facts).filter((c) => c.computer === computer);
  if (store && carried.length === 0) return [unknown(subject, `how long ${called(store)} carries the computer after its supply has gone`)];
  // A store that is too small has a rule of its own.
  if (ending.why === supply.why && carried.length > 0) return [];
  const figures = [
    { label: 'held at least', value: holdS, unit: 's' },
    { label: 'needed', value: need, unit: 's' },
  ];
  const n = (key: string): string => plain(computer.s.num(key));
  const stop = `it needs ${plain(need)} s: ${n('filterS')} s to believe the key, ${n('appS')} s for its programs, ${n('osS')} s to stop, and some in hand`;
  const by = ending.by ? called(ending.by) : '';
  switch (ending.why) {
    case 'timer':
      return say({
        what:
          holdS === 0
            ? `${by} is triggered by a line that falls before the one that ${called(computer)} watches, and may let go first; ${stop}.`
            : `${by} is sure to hold ${plain(holdS)} s after key-off, but ${called(computer)} may not have stopped by then: ${stop}.`,
        todo: holdS === 0 ? 'Let the relay and the computer watch the same line.' : 'Set a longer hold time, or shorten the stop and enter what you measured.',
        figures,
      });
    case 'latch':
      return say({
        what: `${by} is sure to stay closed for ${plain(holdS)} s after key-off, but ${called(computer)} may not have stopped by then: ${stop}.`,
        todo: 'Let a pin of the computer hold the latch, and set its backstop longer than the stop.',
        figures,
      });
    case 'cut-out':
      return say({
        what:
          holdS === 0
            ? `${by} opens on a low battery without a warning that a pin of ${called(computer)} hears; ${stop}.`
            : `${by} opens ${plain(holdS)} s after its warning, but ${called(computer)} may not have stopped by then: ${stop}.`,
        todo: 'Join its warning output to a pin of the computer, and let it open later than the stop takes.',
        figures,
      });
    case 'relay':
      return say({
        what: `${by} opens as soon as the key is off and takes the supply of ${called(computer)} with it; ${stop}.`,
        todo: 'Hold the supply with a delay-off relay.',
        figures,
      });
    default:
      return say({
        what: `${by} falls with the key and takes the supply of ${called(computer)} with it at once; ${stop}.`,
        todo: 'Feed it from permanent 30 over a hold relay that the key triggers.',
        figures,
      });
  }
}

/** The computer hears of key-off by a line that outlives the one that triggers the hold relay. */
function late(facts: Facts, computer: PartView, ending: Ending): boolean {
  const trigger = ending.why === 'timer' && ending.by ? endingAt(facts, ending.by, '15') : null;
  if (!trigger) return false;
  const stays = (view: PartView): boolean => view.facts.tap !== undefined && isLive(view.facts.tap.line, 'RETAIN');
  const heard = sensors(facts).find((s) => s.output?.use.computer === computer && s.output.use.gpio === Math.round(computer.s.num('senseGpio')));
  const line = heard?.led?.supply.view;
  return line !== undefined && stays(line) && ![...trigger.feeds].some(stays);
}

function repairs(facts: Facts, computer: PartView, ending: Ending): readonly Repair[] {
  const need = stopNeedS(computer);
  if (!watchesKey(facts, computer)) return ending.holdS >= need ? sensorRepair(facts, computer) : [];
  const { by } = ending;
  if (!by || late(facts, computer, ending)) return [];
  const timer = timerOf(facts, by, ending);
  if (timer) {
    const time = holdFor(need, by.s.num(timer.tol));
    return [{ title: `Let ${called(by)} ${timer.does} ${time} s`, safe: true, edit: (plan) => setSettings(plan, by.part.id, { [timer.key]: time }) }];
  }
  const repair = ending.why === 'line' && ending.feeds.size === 1 ? holdInstead(facts, by, need) : null;
  return repair ? [repair] : [];
}

/** The setting that gives something that opens by itself more time; null when more time is no help. */
function timerOf(facts: Facts, by: PartView, ending: Ending): { readonly key: string; readonly tol: string; readonly does: string } | null {
  switch (ending.why) {
    case 'timer':
      return { key: 'holdS', tol: 'holdTol', does: 'hold' };
    case 'latch':
      return { key: holdingPin(facts, by) ? 'backstopS' : 'releaseS', tol: 'timeTol', does: 'stay closed for' };
    case 'cut-out':
      return ending.holdS > 0 ? { key: 'delayS', tol: 'timeTol', does: 'wait after its warning for' } : null;
    default:
      return null;
  }
}

/** A key sensor between the best line that falls with the key and the best free pin. */
function sensorRepair(facts: Facts, computer: PartView): Repair[] {
  const feed = keyFeeds(facts)[0];
  const line = feed && fusedLine(facts, feed);
  if (!feed || !line) return [];
  return [
    {
      title: `Add a key sensor on ${called(feed)}`,
      safe: true,
      edit: (plan: Plan) => {
        const row = plan.parts[computer.part.id];
        const pin = freePin(plan, computer.part.id);
        if (!row || !pin) return null;
        const draft = new Draft(plan);
        draft.setPart({ ...row, settings: { ...row.settings, senseGpio: pin.gpio } });
        return addSensor(draft, line, row, pin.pin, null) ? draft.edit('repair.apply', 'Add a key sensor') : null;
      },
    },
  ];
}
