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

/** Group B of the catalogue, "Wires and joints": entries without a rule of their own. */
export const GROUP_B: readonly Account[] = [
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
