import type { Facts, PartView } from '../analysis/factsTypes.ts';
import type { Band, VehicleState } from '../plan/types.ts';
import { once } from './once.ts';

/** The most that flows through something, with the moment. */
export interface MostA {
  readonly amp: number;
  readonly state: VehicleState;
  readonly band: Band;
}

/** Places where the build's ground wires meet the body, with the most that ever comes home there. */
export const groundPoints = once((facts): readonly { readonly view: PartView; readonly most: MostA }[] =>
  facts
    .ofKind('chassis-ground')
    .filter((view) => view.part.owner === 'build' && facts.isWired(`${view.part.id}.31`))
    .map((view) => ({ view, most: mostA(facts, view, 'bond') })),
);

/** The most that flows through an element of a part in any moment. */
export function mostA(facts: Facts, view: PartView, element: string): MostA {
  let most: MostA = { amp: 0, state: 'RUN_CHARGING', band: 'low' };
  for (const { state, band } of facts.solved) {
    const amp = Math.abs(facts.elementA(view.part.id, element, state, band) ?? 0);
    if (amp > most.amp) most = { amp, state, band };
  }
  return most;
}

/** The stud to use in a part's zone. */
export function studFor(facts: Facts, view: PartView): 'dash-stud' | 'body-stud' {
  const kind = facts.plan.zones[view.part.zone]?.kind;
  return kind === 'dash' || kind === 'dash-top' || kind === 'console' ? 'dash-stud' : 'body-stud';
}
