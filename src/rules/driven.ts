import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { type PinUse, pinUses } from './pins.ts';
import { netAt } from './trace.ts';

/** A low-side driver with the output pin that switches it. */
export interface DrivenBy {
  readonly driver: PartView;
  readonly use: PinUse;
}

/** Every low-side driver whose input a pin sees. */
export function pinDrivers(facts: Facts): readonly DrivenBy[] {
  return facts.ofKind('low-side-driver').flatMap((driver) => {
    const net = netAt(facts, driver, 'in');
    const use = pinUses(facts).find((u) => u.nets.has(net));
    return use ? [{ driver, use }] : [];
  });
}
