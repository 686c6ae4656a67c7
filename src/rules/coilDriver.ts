import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { OPTOS, type OptoType } from '../trade/semiconductors.ts';
import { pinUsesOn } from './pins.ts';
import { grounded, type Hop, isResistor, netAt, partsOn, railV, waysFrom } from './trace.ts';

/** Usual voltage rating of a driving transistor when it is not known, V (practice). */
const DRIVER_V = 60;

export interface CoilDriver {
  readonly view: PartView;
  /** What it stands, V. */
  readonly maxV: number;
}

/** The transistor or pin that switches the coil, met over wires, fuses, resistors and chokes from either end; null for contacts. */
export function coilDriver(facts: Facts, view: PartView): CoilDriver | null {
  const through = (h: Hop): boolean => !h.views.includes(view) && (h.link.type === 'fuse' || h.link.type === 'conductor' || isResistor(h));
  for (const terminal of ['85', '86']) {
    const ways = waysFrom(facts, netAt(facts, view, terminal), through, (net) => grounded(facts, net) || railV(facts, net) !== null);
    for (const net of ways.keys()) {
      if (grounded(facts, net) || railV(facts, net) !== null) continue;
      const opto = partsOn(facts, net).find((p) => p.view.kind.kind === 'optocoupler' && (p.terminal === 'C' || p.terminal === 'E'))?.view;
      if (opto) return { view: opto, maxV: OPTOS[opto.s.str('type') as OptoType].vCeMaxV };
      const driver = partsOn(facts, net).find((p) => p.view.kind.kind === 'low-side-driver' && p.terminal === 'out')?.view;
      if (driver) return { view: driver, maxV: driver.s.num('maxV') };
      const pin = pinUsesOn(facts, net)[0];
      if (pin) return { view: pin.computer, maxV: DRIVER_V };
    }
  }
  return null;
}

/** The end of the coil that is the positive one; null when neither is known. */
export function positiveSide(facts: Facts, view: PartView): '86' | '85' | null {
  const [a, b] = [netAt(facts, view, '86'), netAt(facts, view, '85')];
  if (grounded(facts, b) || railV(facts, a) !== null) return '86';
  if (grounded(facts, a) || railV(facts, b) !== null) return '85';
  const volt = facts.across(`${view.part.id}.86`, `${view.part.id}.85`, 'RUN_CHARGING', 'typical') ?? 0;
  return volt > 0 ? '86' : volt < 0 ? '85' : null;
}
