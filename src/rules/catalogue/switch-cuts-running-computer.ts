import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { type Held, heldComputers } from '../holders.ts';
import { carriedBy } from '../storeHold.ts';
import { stopNeedS } from '../supplyHold.ts';
import { switchIntoKeyLine } from '../switchEdits.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('switch-cuts-running-computer', 'F11');

export const switchCutsRunningComputer = defineRule({
  id: 'switch-cuts-running-computer',
  code: 'F11',
  level: 'fault',
  title: 'A switch cuts the running computer',
  why: 'A switch on the dash is for everyday use, and somebody will use it while the computer runs. In the line that tells of the key it asks the computer to stop; in the supply it pulls the plug.',
  source: { text: 'Board maker’s advice on sudden power loss (read); place of the switch from practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => {
    const switches = facts.ofKind('master-switch').filter((v) => v.s.flag('closed'));
    return switches.length === 0 ? [] : heldComputers(facts).map((held) => judge(facts, held));
  },
  repair: (finding, facts) => {
    const cut = facts.parts.get(finding.related[0]?.id ?? '');
    return cut ? switchIntoKeyLine(facts, cut) : [];
  },
});

function judge(facts: Facts, held: Held): Verdict {
  const { computer } = held;
  const subject = part(computer.part.id);
  const cut = cutting(facts, held);
  if (!cut) return fine(subject);
  const needS = stopNeedS(computer);
  return found({
    level: 'fault',
    subject,
    related: [part(cut.part.id)],
    what: `${called(cut)} sits in the supply of ${called(computer)}: switched off, it cuts the running computer at once, which needs ${plain(needS)} s to stop.`,
    todo: 'Put the switch into the line that the key sensor and the hold relay watch, not into the supply; gold contacts suit the few milliamperes there.',
    figures: [{ label: 'needed', value: needS, unit: 's' }],
    state: 'RUN_CHARGING',
    band: null,
  });
}

/** The switch without which nothing feeds the computer, and behind which no store carries it long enough. */
function cutting(facts: Facts, { computer, ending }: Held): PartView | null {
  if (!ending.cutBy) return null;
  const carried = carriedBy(facts).some(
    (c) => c.computer === computer && c.seconds >= stopNeedS(computer) && [...c.contacts].every((v) => v.kind.kind !== 'master-switch'),
  );
  return carried ? null : ending.cutBy;
}
