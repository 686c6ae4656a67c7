import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { coolZone, holdEnds, rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const supply: GuideStep = {
  id: 'supply',
  stage: 'draw',
  title: 'A guarded supply that makes 5 V',
  todo: 'Behind the hold relay: a surge clamp, a guard against reversed leads, a capacitor, and a converter that turns the vehicle’s volts into a steady 5 V.',
  why: 'A vehicle’s supply is rough: deep dips when the starter turns, spikes when a load lets go. The computer wants 5 V within a few tenths.',
  byHand: 'Shelf, Sets: “Guarded 5 V supply” into the computer’s zone. Then a wire from the hold relay’s 87 to the guard’s “in”.',
  rules: ['reversed-supply', 'part-volts', 'converter-overloaded', 'converter-not-rugged', 'two-supplies-tied'],
  checks({ facts }) {
    const { converter } = rolesOf(facts);
    const source = converter && facts.sourcesFor(`${converter.part.id}.in`).find((s) => s.source.kind === 'feed' || s.source.kind === 'battery');
    return [
      fact('A converter is on the plan.', converter !== undefined, converter),
      fact('The vehicle’s current reaches its input.', source !== undefined, converter),
    ];
  },
  offer({ plan, facts }) {
    const { hold, converter } = rolesOf(facts);
    if (!hold) return null;
    const kit = new Kit(plan, facts);
    if (converter) {
      const guard = facts.ofKind('reverse-guard')[0];
      return kit.join(holdEnds(hold).out, guard ? `${guard.part.id}.in` : `${converter.part.id}.in`).offer('Join the supply to the hold relay');
    }
    const zone = coolZone(kit);
    const clamp = kit.piece('supply', 'clamp', zone, [320, 190]);
    const guard = kit.piece('supply', 'guard', zone, [390, 60]);
    const bulk = kit.piece('supply', 'bulk', zone, [550, 190]);
    const made = kit.piece('supply', 'converter', zone, [690, 80]);
    return kit
      .join(holdEnds(hold).out, `${guard}.in`)
      .join(`${clamp}.K`, `${guard}.in`, { lengthM: 0.1 })
      .join(`${guard}.out`, `${made}.in`, { lengthM: 0.1 })
      .join(`${bulk}.+`, `${made}.in`, { lengthM: 0.05 })
      .join(`${bulk}.-`, `${made}.gnd`, { lengthM: 0.05 })
      .join(`${guard}.gnd`, `${bulk}.-`, { lengthM: 0.1 })
      .join(`${clamp}.A`, `${bulk}.-`, { lengthM: 0.1 })
      .offer('Add a guarded 5 V supply');
  },
};
