import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { supplyPair } from '../parts/computer/facts.ts';
import type { Draft } from '../plan/draft.ts';
import type { End, Id } from '../plan/types.ts';
import { BLADE_RATINGS_A } from '../trade/fuses.ts';
import { USB_DEVICES } from '../trade/loads.ts';
import { beside, end, newPart, newWire, SHORT_M } from './build.ts';
import { type Converter, closableReach, converters, outputA } from './rails.ts';

/**
 * A hub's branch behind its fuse: small fuses and thin wires lose too much of 5 V, so these at the least (0.1 Ω in a 1 A fuse:
 * makers’ sheets, from memory). What is not behind it is sized automatically, for all that the converter can push.
 */
const BRANCH = { fuseA: 3, areaMm2: 0.75 } as const;
/** A fuse is loaded so far at the most (fuse makers' guides, from memory). */
const FUSE_SHARE = 0.75;

/** Where a hub's own 5 V can come from. */
export interface HubFeed {
  /** The converter that feeds the computer. */
  readonly feeder: Converter;
  /** It has no room for more, or turns into heat what it is asked for: another stands beside it. */
  readonly another: boolean;
}

/** What can feed a hub beside a computer; null where no converter feeds that computer. */
export function hubFeed(facts: Facts, computer: PartView): HubFeed | null {
  const plus = `${computer.part.id}.${supplyPair(computer.s).plus}`;
  const feeder = converters(facts).find((c) => closableReach(facts, c.outKey, ['fuse', 'contact', 'conductor']).has(plus));
  if (!feeder) return null;
  const { view } = feeder;
  const another = view.kind.kind !== 'step-down' || outputA(facts, feeder).peakA + USB_DEVICES.hub.peakA > view.s.num('ratedA');
  return { feeder, another };
}

/** "of its own", or where the converter has no room: "from a converter of its own". */
export function fiveOfItsOwn({ another }: HubFeed): string {
  return another ? 'a fused 5 V from a converter of its own' : 'a fused 5 V of its own';
}

/**
 * Gives a hub a fused branch.
 * @param deviceA what the devices on it take together, A
 * @returns false when no fuse is large enough or the converter is gone; the draft is then half written and must be dropped.
 */
export function feedHub(draft: Draft, { feeder, another }: HubFeed, hub: Id, deviceA: number): boolean {
  const source = draft.part(feeder.view.part.id);
  const ratingA = BLADE_RATINGS_A.find((a) => a >= Math.max(BRANCH.fuseA, (deviceA + USB_DEVICES.hub.peakA) / FUSE_SHARE));
  if (!source || ratingA === undefined) return false;
  let plus: End = end(source.id, feeder.source.terminal);
  let minus: End = end(source.id, feeder.source.returns);
  if (another) {
    const own = newPart(draft, { kind: 'step-down', ...beside(source, 0, 180), name: 'Converter of the hub' });
    newWire(draft, end(source.id, feeder.load.plus), end(own, 'in'), { lengthM: SHORT_M });
    newWire(draft, end(source.id, feeder.load.minus), end(own, 'gnd'), { lengthM: SHORT_M });
    plus = end(own, 'out');
    minus = end(own, '0v');
  }
  const fuse = newPart(draft, { kind: 'blade-fuse', ...beside(source, 150, 80), name: 'Fuse of the hub', settings: { ratingA } });
  newWire(draft, plus, end(fuse, '1'), { lengthM: SHORT_M });
  newWire(draft, end(fuse, '2'), end(hub, '5v'), { areaMm2: BRANCH.areaMm2 });
  newWire(draft, end(hub, '0v'), minus);
  return true;
}
