import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { coolZone, feedOf, fusedEnd, holdEnds, keyEnd, rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const hold: GuideStep = {
  id: 'hold',
  stage: 'draw',
  title: 'Power that stays on after the key is off',
  todo: 'Put a hold relay between the constant feed and all that follows. The key closes it; when the key goes it stays closed a set time, then lets go.',
  why: 'A computer that loses power while it writes may never start again. It needs a minute to stop, and after that nothing may be left drawing on the battery.',
  byHand: 'Shelf, Switch: “Hold relay”. Wires: the constant feed’s fuse to 30, the master switch’s free side to 15.',
  rules: ['hold-timer-wrong', 'hold-never-lets-go', 'retained-feed-only'],
  checks({ facts }) {
    const { hold: part } = rolesOf(facts);
    const fused = fusedEnd(facts, feedOf(facts, '30'));
    const ends = part && holdEnds(part);
    const fed = ends !== undefined && fused !== null && facts.reach(fused, ['contact', 'conductor', 'fuse']).has(ends.in);
    const line = ends && facts.sourcesFor(ends.trigger).find(({ source }) => source.line === '15' || source.line === '75');
    return [
      fact('A hold relay or latch takes its power from behind the constant feed’s fuse.', fed, part),
      fact('The ignition feed, by way of its fuse, makes it close.', line !== undefined, part, line?.view),
    ];
  },
  offer({ plan, facts }) {
    const [fused, key] = [fusedEnd(facts, feedOf(facts, '30')), keyEnd(facts)];
    if (fused === null || key === null) return null;
    const kit = new Kit(plan, facts);
    const known = rolesOf(facts).hold;
    const id = known?.part.id ?? kit.piece('hold-relay', 'relay', coolZone(kit), [120, 60]);
    const ends = known ? holdEnds(known) : { in: `${id}.30`, trigger: `${id}.15` };
    return kit.join(fused, ends.in).join(key, ends.trigger).offer('Add a hold relay');
  },
};
