import type { Facts } from '../../analysis/factsTypes.ts';
import { KEY_BOUNCE, STARTER_SAG } from '../../trade/keyEvents.ts';
import { isLive } from '../../trade/lines.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { longerFilter } from '../filterEdits.ts';
import { type KeySense, keySenses } from '../keySense.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('dips-taken-for-key-off', 'F12');
/** What is usually set: 2 to 5 s (common practice), s. */
const USUAL_S = 3;

export const dipsTakenForKeyOff = defineRule({
  id: 'dips-taken-for-key-off',
  code: 'F12',
  level: 'fault',
  title: 'Dips taken for key-off',
  why: 'Switch contacts bounce when the key is turned, and every line sags when the starter takes hold. A computer that believes the first look at its pin stops itself for nothing.',
  source: { text: 'Bounce of ignition switches 0.05 to 0.2 s, sag up to 0.5 s: practice, no single source', grade: "fitters' habit" },
  needs: 'graph',
  limits: [
    {
      key: 'starterSagS',
      title: 'Sag of the sensed line when the starter takes hold, the longest',
      unit: 's',
      value: STARTER_SAG.mostS,
      least: 0,
      most: 5,
      basis: 'fitters’ practice',
    },
  ],
  check: (facts) => keySenses(facts).map((k) => judge(facts, k)),
  repair: (finding, facts) => {
    const k = keySenses(facts).find((x) => x.computer.part.id === finding.subject.id);
    return k ? [longerFilter(facts, k.computer, Math.max(USUAL_S, needS(facts, k).needS))] : [];
  },
});

/** Longest time for which the line may look dead although the key is on, s; a line that is dead while starting has its own rule. */
function needS(facts: Facts, { line }: KeySense): { readonly needS: number; readonly sags: boolean } {
  const sags = line === null || isLive(line, 'START');
  const longest = sags ? facts.threshold('starterSagS', STARTER_SAG.mostS) : 0;
  return { needS: Math.max(longest, KEY_BOUNCE.mostS), sags };
}

function judge(facts: Facts, k: KeySense): Verdict {
  const { computer, feed } = k;
  const subject = part(computer.part.id);
  const { needS: need, sags } = needS(facts, k);
  const filterS = computer.s.num('filterS');
  if (filterS >= need) return fine(subject);
  const line = feed ? called(feed) : 'the line that it watches';
  return found({
    level: 'fault',
    subject,
    related: feed ? [part(feed.part.id)] : [],
    what: `${called(computer)} believes that the key is off after ${plain(filterS)} s, and ${line} may look dead for ${plain(need)} s ${sags ? 'when the starter takes hold' : 'when the key is turned'}.`,
    todo: 'Let it wait 2 to 5 s before it believes the key.',
    figures: [
      { label: 'waits', value: filterS, unit: 's' },
      { label: 'may look dead', value: need, unit: 's' },
    ],
    state: sags ? 'START' : 'RUN_STOPPED',
    band: null,
  });
}
