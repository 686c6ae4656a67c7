import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { STORAGE_MARGIN } from '../../trade/standing.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { watchesKey } from '../keySense.ts';
import { sureEnding } from '../storeHold.ts';
import { endingAt, stopNeedS } from '../supplyHold.ts';

const { fine, found, unknown } = verdicts('storage-not-guarded', 'F14');

export const storageNotGuarded = defineRule({
  id: 'storage-not-guarded',
  code: 'F14',
  level: 'advice',
  stage: 'software',
  title: 'Storage bears no sudden loss of power',
  why: 'One day a stop takes longer than ever before, and the power goes while the card is being written. A card can lose more than its last file then: the system no longer starts.',
  source: { text: 'Board maker’s pages on cards and power (read); twice the time as margin from practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    facts.ofKind('computer').flatMap((computer) => {
      const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
      if (!ending) return [];
      const subject = part(computer.part.id);
      const storage = computer.s.str('storage');
      const holdS = heldS(facts, computer);
      const needS = stopNeedS(computer);
      if (storage === 'protected' || holdS >= STORAGE_MARGIN * needS) return [fine(subject)];
      if (storage === 'unknown') return [unknown(subject, `whether the storage of ${called(computer)} bears a sudden loss of power`)];
      return [
        found({
          level: 'advice',
          subject,
          what: `${called(computer)} writes to a plain card and is sure of its power for ${plain(holdS)} s after key-off, ${plain(holdS / needS)} times the ${plain(needS)} s that it needs: one slow stop and the card is at risk.`,
          todo: `Make its system read-only, use storage with a reserve of its own, or hold the power for ${STORAGE_MARGIN} times as long as it needs.`,
          figures: [
            { label: 'held at least', value: holdS, unit: 's' },
            { label: 'needed', value: needS, unit: 's' },
            { label: 'margin', value: holdS / needS, unit: 'times' },
          ],
          state: 'RETAIN_DOOR',
        }),
      ];
    }),
  repair: (finding) => [typing(finding.subject.id, { storage: 'protected' }, 'Make its system read-only', false)],
});

/** For how long the computer is sure of its power, s; one that never hears of key-off loses it in full run. */
function heldS(facts: Facts, computer: PartView): number {
  const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
  return ending && watchesKey(facts, computer) ? sureEnding(facts, computer, ending).holdS : 0;
}
