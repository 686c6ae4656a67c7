import { zoneOrder } from '../../../plan/edits.ts';
import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { dashZone, feedOf, fusedEnd, rolesOf } from '../roles.ts';
import type { GuideStep, Offer, Scope } from '../types.ts';

export const constantFeed: GuideStep = {
  id: 'constant-feed',
  stage: 'draw',
  title: 'A constant feed, fused where it is tapped',
  todo: 'Take the build’s power from a lead that is always live (30), and put a fuse a hand’s width from where you join it.',
  why: 'Between the joint and the first fuse nothing stops the battery when a wire chafes through: that piece must be as short as it can be.',
  byHand: 'Shelf, Sets: “Fused constant feed” into the zone behind the dash. Then a wire from the battery’s + to the feed’s “in”.',
  rules: ['tap-without-fuse', 'fuse-far-from-tap', 'critical-lead-tapped', 'fuse-class-too-low'],
  checks: (scope) => feedChecks(scope, '30'),
  offer: (scope) => feedOffer(scope, '30', 'Add a fused constant feed'),
};

export const keyFeed: GuideStep = {
  id: 'key-feed',
  stage: 'draw',
  title: 'An ignition feed, fused where it is tapped',
  todo: 'Take a second lead that is live only with the ignition on (15). It carries next to nothing: it only tells the build where the key stands.',
  why: 'Without it nothing knows that the engine has been switched off, and the build would run until the battery is flat.',
  byHand: 'Shelf, Sets: “Fused ignition feed” into the zone behind the dash. Then a wire from the battery’s + to the feed’s “in”.',
  rules: [],
  checks: (scope) => feedChecks(scope, '15'),
  offer: (scope) => feedOffer(scope, '15', 'Add a fused ignition feed'),
};

function feedChecks({ facts }: Scope, line: '30' | '15') {
  const feed = feedOf(facts, line);
  const name = line === '30' ? 'A constant feed' : 'An ignition feed';
  return [
    fact(`${name} is on the plan and joined to the battery.`, feed !== undefined && facts.isWired(`${feed.part.id}.in`), feed),
    fact('A fuse stands right behind it.', fusedEnd(facts, feed) !== null, feed),
  ];
}

function feedOffer({ plan, facts }: Scope, line: '30' | '15', title: string): Offer | null {
  const kit = new Kit(plan, facts);
  const zone = dashZone(plan);
  const set = `fused-feed-${line}`;
  const y = line === '30' ? 60 : 160;
  const battery = rolesOf(facts).battery?.part.id ?? kit.part({ kind: 'battery', zone: zoneOrder(plan)[0] ?? zone, owner: 'vehicle' }, [50, 50]);
  const known = feedOf(facts, line);
  const feed = known?.part.id ?? kit.piece(set, 'feed', zone, [40, y]);
  kit.join(`${battery}.+`, `${feed}.in`, { owner: 'vehicle' });
  // What hangs on the feed without a fuse is for the rules to mend: they know which wire to cut.
  const bare = known && facts.netWires(facts.netOf(`${feed}.out`)).some((w) => w.owner === 'build');
  if (fusedEnd(facts, known) === null && !bare)
    kit.join(`${feed}.out`, `${kit.piece(set, 'fuse', known?.part.zone ?? zone, [220, y + 10])}.1`, { lengthM: 0.1 });
  return kit.offer(title);
}
