import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { type PinUse, pinUsesSeeing } from './pins.ts';
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
    const use = pinUsesSeeing(facts, net)[0];
    return use ? [{ driver, use }] : [];
  });
}
