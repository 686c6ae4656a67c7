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
import { type Ending, endingAt, stopNeedS } from '../supplyHold.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('power-gone-too-soon', 'F1');
/** A capacitor from this energy on carries a computer for a while, J. */
const STORE_J = 20;

export const powerGoneTooSoon = defineRule({
  id: 'power-gone-too-soon',
  code: 'F1',
  level: 'fault',
  title: 'Power goes away before the computer has finished',
  why: 'A computer that loses its power while it writes can damage its storage, and one day it does not start again. It wants to be told of key-off and then left with power until it has stopped.',
  source: { text: 'Board maker’s advice on sudden power loss (read); times and the quarter of margin from practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => fed(facts).map(({ computer, ending }) => judge(facts, computer, ending)),
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

function judge(facts: Facts, computer: PartView, ending: Ending): Verdict {
  const subject = part(computer.part.id);
  const need = stopNeedS(computer);
  const say = (f: Pick<FindingParts, 'what' | 'todo'> & Partial<FindingParts>): Verdict =>
    found({ level: 'fault', subject, related: ending.by ? [part(ending.by.part.id)] : [], state: 'RETAIN_DOOR', band: null, ...f });
  if (!watchesKey(facts, computer)) {
    return say({
      what: `No pin of ${called(computer)} watches the key, so it never hears of key-off and runs until its power ${Number.isFinite(ending.holdS) ? 'falls' : 'falls or the battery is flat'}.`,
      todo: 'Add a key sensor to one of its pins.',
      data: { why: 'deaf' },
    });
  }
  const holdS = late(facts, computer, ending) ? 0 : ending.holdS;
  if (holdS >= need) return fine(subject);
  const store = facts.ofKind('capacitor').find((c) => (c.facts.storeJ ?? 0) >= STORE_J && endingAt(facts, c, '+') !== null);
  if (store) return unknown(subject, `how long ${called(store)} carries the computer after its supply has gone`);
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
    case 'switch':
      return say({
        what: `${by} sits in the supply of ${called(computer)}: switched off, it cuts the running computer at once, and ${stop}.`,
        todo: 'Put the switch into the line that the key sensor and the hold relay watch, not into the supply.',
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
  if (ending.why === 'timer') {
    const holdS = holdFor(need, by.s.num('holdTol'));
    return [{ title: `Let ${called(by)} hold ${holdS} s`, safe: true, edit: (plan) => setSettings(plan, by.part.id, { holdS }) }];
  }
  const repair = ending.why === 'line' && ending.feeds.size === 1 ? holdInstead(facts, by, need) : null;
  return repair ? [repair] : [];
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
