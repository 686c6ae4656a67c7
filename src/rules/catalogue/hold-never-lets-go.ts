import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { coilDriver } from '../coilDriver.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { holdFor } from '../holdEdits.ts';
import { type Held, holdersOf } from '../holders.ts';
import { joinInstead } from '../retrigger.ts';
import { endingAt, holdingPin, stopNeedS } from '../supplyHold.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('hold-never-lets-go', 'F7');
/** Usual backstop, s (common practice). */
const BACKSTOP_S = 300;

export const holdNeverLetsGo = defineRule({
  id: 'hold-never-lets-go',
  code: 'F7',
  level: 'fault',
  title: 'Hold circuit that never lets go',
  why: 'What keeps the supply on after key-off must end by itself, whatever the computer does. A program that hangs on a Friday holds the relay until the battery is flat.',
  source: { text: 'Universal practice: a timer behind every hold that depends on a program', grade: "fitters' habit" },
  needs: 'graph',
  explains: ['key-back-while-stopping', 'coil-on-while-parked'],
  check: (facts) => KINDS.flatMap((kind) => holdersOf(facts, kind).flatMap(({ holder, held }) => judge(facts, holder, held))),
  repair: (finding, facts) => {
    const here = KINDS.flatMap((kind) => holdersOf(facts, kind)).find((h) => h.holder.part.id === finding.subject.id);
    return here ? repairs(facts, here.holder, here.held, finding) : [];
  },
});

const KINDS = ['delay-off-relay', 'hold-latch', 'relay'] as const;

function judge(facts: Facts, holder: PartView, held: readonly Held[]): Verdict[] {
  const subject = part(holder.part.id);
  // A cut-out ahead of it saves the battery, and the hold still never ends.
  const level = held.every((h) => [...h.contacts].some((v) => v.kind.kind === 'low-voltage-cutout')) ? 'advice' : 'fault';
  const say = (why: string, related: readonly PartView[], what: string, todo: string): Verdict[] => [
    found({
      level,
      subject,
      related: [...held.map((h) => part(h.computer.part.id)), ...related.map((v) => part(v.part.id))],
      what,
      todo,
      state: 'OFF_ASLEEP',
      data: { why },
    }),
  ];
  const asleep = (terminal: string): PartView | null => {
    const e = endingAt(facts, holder, terminal);
    return e && e.holdS === Number.POSITIVE_INFINITY ? ([...e.feeds][0] ?? null) : null;
  };
  if (holder.kind.kind === 'delay-off-relay') {
    const stays = asleep('15');
    if (!stays) return [fine(subject)];
    return say(
      'trigger',
      [stays],
      `${called(holder)} is triggered by ${called(stays)}, which never falls: its time never starts to run.`,
      'Trigger it from ignition (15).',
    );
  }
  if (holder.kind.kind === 'hold-latch') {
    const terminal = (['set', 'set2'] as const).find((t) => asleep(t));
    if (terminal) {
      const stays = asleep(terminal)!;
      return say(
        terminal,
        [stays],
        `${called(holder)} is set by ${called(stays)}, which never falls: it never opens.`,
        'Set it from ignition (15), or from a button.',
      );
    }
    if (!holdingPin(facts, holder) || holder.s.num('backstopS') > 0) return [fine(subject)];
    return say(
      'backstop',
      [],
      `Only the computer’s program lets go of ${called(holder)}: it has no time limit, and a program that hangs holds it until the battery is flat.`,
      'Set a time limit longer than the stop, or fit a latch that has one.',
    );
  }
  // A relay that a key line works falls with it; one that a pin works is held by a program.
  const driver = coilDriver(facts, holder);
  if (!driver) return [];
  return say(
    'relay',
    [driver.view],
    `Only the computer’s program lets go of ${called(holder)}, over ${called(driver.view)}: a program that hangs holds it until the battery is flat.`,
    'Let a timer open it at the latest, or use a hold relay or latch with a time limit.',
  );
}

function repairs(facts: Facts, holder: PartView, held: readonly Held[], finding: Finding): readonly Repair[] {
  switch (finding.data?.why) {
    case 'trigger':
      return joinInstead(facts, holder, '15', 'Trigger');
    case 'set':
    case 'set2':
      return joinInstead(facts, holder, finding.data.why, 'Set');
    case 'backstop': {
      const need = Math.max(...held.map((h) => stopNeedS(h.computer)));
      const backstopS = Math.max(BACKSTOP_S, holdFor(need, holder.s.num('timeTol')));
      const title = `Give ${called(holder)} a time limit of ${plain(backstopS)} s`;
      return [{ title, safe: true, edit: (plan) => setSettings(plan, holder.part.id, { backstopS }) }];
    }
    default:
      return [];
  }
}
