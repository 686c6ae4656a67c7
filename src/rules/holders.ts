import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { supplyPair } from '../parts/computer/facts.ts';
import { carriedBy, sureEnding } from './storeHold.ts';
import { type Ending, endingAt } from './supplyHold.ts';

/** A computer that something feeds, what ends its supply, and every contact on the way, from the vehicle or from a store. */
export interface Held {
  readonly computer: PartView;
  readonly ending: Ending;
  readonly contacts: ReadonlySet<PartView>;
}

/** Every computer that a feed or battery reaches. */
export function heldComputers(facts: Facts): readonly Held[] {
  return facts.ofKind('computer').flatMap((computer) => {
    const supply = endingAt(facts, computer, supplyPair(computer.s).plus);
    if (!supply) return [];
    const stores = carriedBy(facts).filter((c) => c.computer === computer);
    return [{ computer, ending: sureEnding(facts, computer, supply), contacts: new Set([...supply.contacts, ...stores.flatMap((c) => [...c.contacts])]) }];
  });
}

/** Parts of one kind through which computers are fed, each with those computers. */
export function holdersOf(facts: Facts, kind: string): readonly { readonly holder: PartView; readonly held: readonly Held[] }[] {
  const all = heldComputers(facts);
  return facts.ofKind(kind).flatMap((holder) => {
    const held = all.filter((h) => h.contacts.has(holder));
    return held.length > 0 ? [{ holder, held }] : [];
  });
}
