import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { boardOf, stopS } from '../../parts/computer/settings.ts';
import { wiresOn } from '../../plan/connect.ts';
import { Draft } from '../../plan/draft.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { gpioPin, WAKE_GPIO } from '../../trade/header.ts';
import { TIMER_BELIEVES_S } from '../../trade/keyEvents.ts';
import { beside, end, newPart, newWire, railEnd, type } from '../build.ts';
import type { FindingParts } from '../defineRule.ts';
import { called, defineRule, part, plain, two, verdicts } from '../defineRule.ts';
import { type Held, heldComputers } from '../holders.ts';
import { watchesKey } from '../keySense.ts';
import { type Carried, carriedBy, carryS } from '../storeHold.ts';
import { endingAt, holdingPin } from '../supplyHold.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('key-back-while-stopping', 'F10');
/** A board wants its power away for so long before it starts anew, s (common practice, no source). */
const PAUSE_S = 3;
/** What is set where a timer can always run out, s (common practice, no source). */
const USUAL_PAUSE_S = 5;
/** A stopped board's 5 V must be gone so soon after it has stopped, when a store holds it up, s (common practice, no source). */
const STORE_MOST_S = 5;

export const keyBackWhileStopping = defineRule({
  id: 'key-back-while-stopping',
  code: 'F10',
  level: 'fault',
  title: 'Key comes back while the computer stops',
  why: 'A computer that has stopped starts again only when its power has been away. If the key comes back first, the power never goes away: the computer stays dark while you drive, and nothing tells why.',
  source: { text: 'Board maker’s notes on halting and waking (read): only GPIO 3 wakes a halted board, else its power must go and come', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => heldComputers(facts).flatMap((h) => (watchesKey(facts, h.computer) ? [judge(facts, h)] : [])),
  repair: (finding, facts) => {
    const relay = facts.parts.get(String(finding.data?.relay ?? ''));
    const computer = facts.parts.get(finding.subject.id);
    return [...(relay ? [alwaysRunsOut(relay)] : []), ...(computer ? wakeButton(facts, computer) : [])];
  },
});

/** Does something wake the board while it is stopped with its power on? */
function wakes(facts: Facts, computer: PartView): boolean {
  const pin = `${gpioPin(WAKE_GPIO).pin}`;
  return computer.s.str('wakes') === 'gpio3' && Math.round(computer.s.num('powerOffPin')) === 0 && wiresOn(facts.plan, computer.part.id, pin).length > 0;
}

function judge(facts: Facts, { computer, ending, contacts }: Held): Verdict {
  const subject = part(computer.part.id);
  if (wakes(facts, computer)) return fine(subject);
  const openers = [...contacts].filter((v) => opens(facts, v, computer));
  const pauses = openers.some((v) => v.kind.kind === 'delay-off-relay' && v.s.num('minOffS') >= PAUSE_S && computer.s.num('filterS') >= TIMER_BELIEVES_S);
  if (pauses) return fine(subject);
  const opener = openers[0];
  if (opener) return comesBack(facts, computer, opener);
  const store = carriedBy(facts).find((c) => c.computer === computer && c.contacts.size === 0 && c.seconds > 0);
  if (store) return livesOn(computer, store);
  if (ending.holdS < Number.POSITIVE_INFINITY) return fine(subject);
  const feed = [...ending.feeds][0];
  return found({
    level: 'fault',
    subject,
    related: feed ? [part(feed.part.id)] : [],
    what: `Once ${called(computer)} has stopped, nothing takes its power away${feed ? ` from ${called(feed)}` : ''}: when the key comes back it stays as it is, until somebody pulls the fuse.`,
    todo: 'Feed it over a hold relay or latch that opens after the stop, or wake it with GPIO 3.',
    state: 'RETAIN',
    band: null,
  });
}

/** Does this contact take the power away after the stop: a timer whose trigger falls, a latch that is kept by a pin of this computer? */
function opens(facts: Facts, view: PartView, computer: PartView): boolean {
  const falls = (terminal: string): boolean => endingAt(facts, view, terminal)?.holdS !== Number.POSITIVE_INFINITY;
  if (view.kind.kind === 'delay-off-relay') return falls('15');
  return view.kind.kind === 'hold-latch' && falls('set') && falls('set2') && holdingPin(facts, view)?.computer === computer;
}

/** The power would go, but a key that is back first keeps it. */
function comesBack(facts: Facts, computer: PartView, opener: PartView): Verdict {
  const timer = opener.kind.kind === 'delay-off-relay';
  const restarts = computer.s.flag('restartsOnKey');
  const stop = stopS(computer.s);
  const goneS = timer ? opener.s.num('holdS') * (1 + opener.s.num('holdTol')) : stop + opener.s.num('releaseS') * (1 + opener.s.num('timeTol'));
  const byKey = timer || endingAt(facts, opener, 'set') !== null;
  // A latch that only a button sets opens whatever the key does.
  if (!byKey) return fine(part(computer.part.id));
  const keeps = timer ? `starts the time of ${called(opener)} anew` : `keeps ${called(opener)} closed`;
  const base: Omit<FindingParts, 'level' | 'what' | 'todo'> = {
    subject: part(computer.part.id),
    related: [part(opener.part.id)],
    figures: [
      { label: 'stopped at the latest', value: stop, unit: 's' },
      { label: 'power gone at the latest', value: goneS, unit: 's' },
    ],
    state: 'RETAIN',
    band: null,
    ...(timer ? { data: { relay: opener.part.id } } : {}),
  };
  if (restarts) {
    return found({
      ...base,
      level: 'advice',
      what: `From when ${called(computer)} has stopped (${plain(stop)} s after key-off at the latest) until its power goes (${plain(goneS)} s at the latest), a key that comes back ${keeps}, and the computer stays off. Earlier or later it starts again.`,
      todo: timer
        ? 'Wait until the power has gone before starting again, or fit a timer that always runs out and stays open some seconds.'
        : 'Wait until the power has gone before starting again, or wake it with GPIO 3.',
    });
  }
  return found({
    ...base,
    level: 'fault',
    what: `A key that comes back while ${called(computer)} stops ${keeps}: the stop goes on, it ends off with its power on, and stays so while you drive.`,
    todo: timer
      ? 'Let the stop turn into a restart when the key is back, or fit a timer that always runs out and stays open some seconds.'
      : 'Let the stop turn into a restart when the key is back, or wake it with GPIO 3.',
  });
}

/** A stopped board draws so little that a store keeps its 5 V up for long. */
function livesOn(computer: PartView, c: Carried): Verdict {
  const subject = part(computer.part.id);
  const haltedW = (boardOf(computer.s).offA * 5) / LIGHT_ETA + (c.converter ? idleW(c) : 0);
  const seconds = carryS({ ...c, farad: c.farad / WORN, watt: haltedW });
  if (seconds <= STORE_MOST_S) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(c.store.part.id)],
    what: `Once ${called(computer)} has stopped it draws ${two(1e3 * haltedW)} mW, and ${called(c.store)} keeps its power up for another ${seconds < 600 ? `${two(seconds)} s` : `${two(seconds / 60)} minutes`}: a key that comes back meanwhile finds it off with its power on, and it stays so.`,
    todo: 'Put a hold latch or hold relay between the store and the converter, which opens some seconds after the stop.',
    figures: [{ label: 'power stays for', value: seconds, unit: 's' }],
    state: 'RETAIN',
    band: null,
  });
}

/** Efficiency of a converter that gives next to nothing, and the share that a worn store has of a new one. */
const LIGHT_ETA = 0.8;
const WORN = 0.7;

/** What a converter takes for itself out of a store that falls, W. */
function idleW(c: Carried): number {
  const view = c.converter!.view;
  return view.s.num('quiescentA') * ((c.fullV + c.leastV) / 2);
}

function alwaysRunsOut(relay: PartView): Repair {
  return {
    title: `Fit a timer that always runs out and then stays open for ${USUAL_PAUSE_S} s`,
    safe: false,
    edit: (plan) => setSettings(plan, relay.part.id, { minOffS: USUAL_PAUSE_S }),
  };
}

/**
 * A button that wakes the stopped board: all there is where a latch or a store keeps its power up. None where the pin that
 * wakes is taken, or where another pin says “stopped”: that takes the waking away.
 */
function wakeButton(facts: Facts, computer: PartView): Repair[] {
  const { pin } = gpioPin(WAKE_GPIO);
  const id = computer.part.id;
  if (Math.round(computer.s.num('powerOffPin')) !== 0 || wiresOn(facts.plan, id, `${pin}`).length > 0) return [];
  return [
    {
      title: `Add a button on GPIO ${WAKE_GPIO} that wakes ${called(computer)}`,
      safe: false,
      edit: (plan) => {
        const row = plan.parts[id];
        const zero = row && railEnd(plan, id, 'GND', pin);
        if (!row || !zero) return null;
        const draft = new Draft(plan);
        const button = newPart(draft, { kind: 'push-button', ...beside(row, 180, 0), name: 'Button: wake', settings: { contact: 'gold' } });
        newWire(draft, end(id, `${pin}`), end(button, '1'));
        newWire(draft, end(button, '2'), zero);
        type(draft, id, { wakes: 'gpio3' });
        return draft.edit('repair.apply', 'Add a wake button');
      },
    },
  ];
}
