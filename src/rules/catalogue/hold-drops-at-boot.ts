import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { holdFor } from '../holdEdits.ts';
import { holdersOf } from '../holders.ts';
import { type PinUse, pinName, pinUsesSeeing } from '../pins.ts';
import { endingAt } from '../supplyHold.ts';
import { netAt } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('hold-drops-at-boot', 'F8');

export const holdDropsAtBoot = defineRule({
  id: 'hold-drops-at-boot',
  code: 'F8',
  level: 'fault',
  title: 'Hold circuit drops at boot or at a restart',
  why: 'Until its program runs, a computer drives no pin: for half a minute after each start nothing holds a latch that a pin should hold. Unless something else does meanwhile, it opens before the computer is up.',
  source: { text: 'Board maker’s notes on the power-off output and pin states at boot (read); times to start from practice', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    latches(facts).map(({ latch, use }) => {
      const subject = part(latch.part.id);
      const computer = use.computer;
      if (use.mode !== 'out') return wrongPin(latch, use);
      const holdsS = latch.s.num('releaseS') * (1 - latch.s.num('timeTol'));
      const bootS = computer.s.num('bootS');
      if (holdsS >= bootS) return fine(subject);
      const byKey = endingAt(facts, latch, 'set') !== null;
      return found({
        level: byKey ? 'advice' : 'fault',
        subject,
        related: [part(computer.part.id)],
        what: `${pinName(use)} of ${called(computer)} holds ${called(latch)} only ${plain(bootS)} s after a start, and the latch opens after ${plain(holdsS)} s with nothing to hold it: ${byKey ? 'a restart with the key off ends with the power gone' : 'a press of the button is over before the computer is up'}.`,
        todo: byKey
          ? 'Let the latch open later than the computer needs to start, or accept it.'
          : 'Let the latch open later than the computer needs to start, or set it from ignition (15) as well.',
        figures: [
          { label: 'opens after', value: holdsS, unit: 's' },
          { label: 'time to start', value: bootS, unit: 's' },
        ],
        data: { why: 'slow' },
      });
    }),
  repair: (finding, facts) => {
    const here = latches(facts).find((l) => l.latch.part.id === finding.subject.id);
    if (!here) return [];
    return finding.data?.why === 'slow' ? slower(here.latch, here.use) : driven(here.use);
  },
});

/** Latches that feed a computer and whose hold input is joined to a pin. */
function latches(facts: Facts): { latch: PartView; use: PinUse }[] {
  return holdersOf(facts, 'hold-latch').flatMap(({ holder }) => {
    const net = netAt(facts, holder, 'hold');
    const use = pinUsesSeeing(facts, net)[0];
    return use ? [{ latch: holder, use }] : [];
  });
}

function wrongPin(latch: PartView, use: PinUse): Verdict {
  const stopped = use.mode === 'stopped-signal';
  return found({
    level: 'fault',
    subject: part(latch.part.id),
    related: [part(use.computer.part.id)],
    what: stopped
      ? `${pinName(use)} of ${called(use.computer)} is low while the computer runs and high once it has stopped: ${called(latch)} opens when it should hold, and holds when it should open.`
      : `${pinName(use)} of ${called(use.computer)} is no output: it never holds ${called(latch)}.`,
    todo: 'Hold the latch with an output that is high while the computer is up.',
    data: { why: 'pin' },
  });
}

function slower(latch: PartView, use: PinUse): Repair[] {
  const releaseS = holdFor(use.computer.s.num('bootS'), latch.s.num('timeTol'));
  return [{ title: `Let ${called(latch)} open after ${plain(releaseS)} s`, safe: true, edit: (plan) => setSettings(plan, latch.part.id, { releaseS }) }];
}

function driven(use: PinUse): Repair[] {
  const { computer, gpio } = use;
  const stopped = use.mode === 'stopped-signal' ? { powerOffPin: 0 } : {};
  return [
    {
      title: `Make ${pinName(use)} an output that is high while the computer is up`,
      safe: false,
      edit: (plan) => setSettings(plan, computer.part.id, { ...stopped, [`gpio${gpio}Mode`]: 'out' }),
    },
  ];
}
