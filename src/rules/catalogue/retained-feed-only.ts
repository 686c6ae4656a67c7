import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { listed } from '../../plan/listed.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { holdInstead } from '../holdEdits.ts';
import { endingAt, stopNeedS } from '../supplyHold.ts';

const { fine, found } = verdicts('retained-feed-only', 'F2');

export const retainedFeedOnly = defineRule({
  id: 'retained-feed-only',
  code: 'F2',
  level: 'fault',
  title: 'Only fed by retained accessory',
  why: 'A retained line stays up for some minutes after key-off, which looks like a ready-made hold. But it ends the moment a door is opened, and nobody waits in a parked car for a computer.',
  source: { text: 'Owner’s handbooks: ten minutes, or until the driver’s door is opened (read)', grade: 'data sheet' },
  needs: 'graph',
  disputed:
    'Some run a computer from the retained line alone: it stays up for minutes after key-off, and a card is rarely lost. Others never do, for an opened door ends it within a blink. Here the retained line may tell the computer of the key, and permanent 30 carries it.',
  explains: ['power-gone-too-soon', 'starting-reboots-computer'],
  check: (facts) =>
    fed(facts).map(({ computer, feeds }) => {
      const subject = part(computer.part.id);
      const retained = feeds.filter((f) => f.facts.tap?.line === '75r');
      if (retained.length < feeds.length) return fine(subject);
      return found({
        level: 'fault',
        subject,
        related: retained.map((f) => part(f.part.id)),
        what: `${called(computer)} is fed by ${listed(retained.map(called))} alone, which drops within a tenth of a second when a door is opened.`,
        todo: 'Feed it from permanent 30 over a hold relay, and let the retained line trigger that.',
        state: 'RETAIN_DOOR',
        band: 'typical',
      });
    }),
  repair: (finding, facts) => {
    const here = fed(facts).find((f) => f.computer.part.id === finding.subject.id);
    const feed = here?.feeds.length === 1 ? here.feeds[0] : undefined;
    const repair = here && feed ? holdInstead(facts, feed, stopNeedS(here.computer)) : null;
    return repair ? [repair] : [];
  },
});

/** Computers that a feed or battery reaches, with what feeds them. */
function fed(facts: Facts): { computer: PartView; feeds: readonly PartView[] }[] {
  return facts.ofKind('computer').flatMap((computer) => {
    const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
    return ending ? [{ computer, feeds: [...ending.feeds] }] : [];
  });
}
