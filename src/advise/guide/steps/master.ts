import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { coolZone, feedOf, fusedEnd, rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

/** A contact for a few milliamperes, as the kind's own variant has it: the line carries no more. */
const LOW_LEVEL = { contact: 'gold', dcA: 3, minA: 0.001 };

export const masterSwitch: GuideStep = {
  id: 'master-switch',
  stage: 'draw',
  title: 'A switch to put the build to rest',
  todo: 'Put a switch into the thin line that tells the build about the key. Off, the build sees “key off”, shuts down in order and stays down.',
  why: 'Sooner or later the build must be stilled without tools: for the workshop, for a long stand, for a fault. In the thin line it never cuts a running computer.',
  byHand: 'Shelf, Switch: “Master switch”. A wire from the free side of the ignition feed’s fuse to its 1. A hold latch with its button stands in for it.',
  rules: ['master-switch-wrong', 'switch-cuts-running-computer'],
  checks({ facts }) {
    const { master } = rolesOf(facts);
    const latch = facts.ofKind('hold-latch')[0];
    const wired = master !== undefined && (facts.isWired(`${master.part.id}.1`) || facts.isWired(`${master.part.id}.2`));
    const stands = latch !== undefined && (facts.isWired(`${latch.part.id}.set2`) || facts.isWired(`${latch.part.id}.hold`));
    return [fact('A switch, or a latch with its button, can still the build.', wired || stands, master ?? latch)];
  },
  offer({ plan, facts }) {
    const fused = fusedEnd(facts, feedOf(facts, '15'));
    if (fused === null) return null;
    const kit = new Kit(plan, facts);
    const master = rolesOf(facts).master?.part.id ?? kit.part({ kind: 'master-switch', zone: coolZone(kit), settings: LOW_LEVEL }, [40, 230]);
    return kit.join(fused, `${master}.1`).offer('Add a master switch');
  },
};
