import type { Facts } from '../../analysis/factsTypes.ts';
import type { Account } from './types.ts';

/** Does any wire of ours go from one zone to another? */
function leavesZone(facts: Facts): boolean {
  const zone = (id: string): string | undefined => facts.plan.parts[id]?.zone;
  return Object.values(facts.plan.wires).some((w) => w.owner === 'build' && zone(w.from.part) !== zone(w.to.part));
}

/** Is any lead of the vehicle tapped other than with an adapter? */
function cutsLeads(facts: Facts): boolean {
  return [...facts.parts.values()].some((v) => v.facts.sources?.some((s) => s.kind === 'feed') && v.s.str('joint') !== 'adapter');
}

/** What a crimp contact of a 2.54 mm header takes at the most, mm² (makers' ranges, from memory). */
const HEADER_MM2 = 0.5;

/** Does a wire end on a header that no header contact takes? */
function tooThickForHeader(facts: Facts): boolean {
  return Object.values(facts.plan.wires).some(
    (w) =>
      (facts.analysis.wires[w.id]?.areaMm2 ?? 0) > HEADER_MM2 && [w.from, w.to].some((e) => facts.at(`${e.part}.${e.terminal}`)?.terminal.form === 'header'),
  );
}

/** Group B of the catalogue, "Wires and joints": entries without a rule of their own. */
export const GROUP_B: readonly Account[] = [
  {
    code: 'B5',
    how: 'checklist',
    when: 'wiring',
    line: `End every wire above ${HEADER_MM2} mm² in a splice a hand’s width before the header, with a tail of ${HEADER_MM2} mm², 0.1 m at the most, to its pin: a header contact takes no more.`,
    reason: 'A wire is drawn and reckoned in one size from end to end; how its last hand’s width is made is a matter of the hand.',
    beside: 'small-contact-overloaded',
    applies: tooThickForHeader,
  },
  {
    code: 'B8',
    how: 'checklist',
    when: 'wiring',
    line: 'Put a grommet and a sleeve wherever a wire passes sheet metal, and hold the wire on both sides of it.',
    reason: 'A plan knows zones and lengths, not where the way goes through a panel.',
    applies: leavesZone,
  },
  {
    code: 'B13',
    how: 'checklist',
    when: 'closing',
    line: 'Join or cap every end of every vehicle wire that was cut, and write down which, so that it can be put back.',
    reason: 'The plan draws the leads that it taps, not the vehicle’s other wires that had to give way.',
    applies: cutsLeads,
  },
];
