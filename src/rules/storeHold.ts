import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { supplyPair } from '../parts/computer/facts.ts';
import { bankFarad, bankOhm } from '../parts/storeFigures.ts';
import { BOARD_SUPPLY } from '../trade/boards.ts';
import { DIODES, type DiodeType } from '../trade/semiconductors.ts';
import { once } from './once.ts';
import { type Converter, converters } from './rails.ts';
import { contactEnding, type Ending } from './supplyHold.ts';
import { grounded, type Hop, hopsOf, netAt } from './trace.ts';

/** A capacitor from this energy on carries a computer for a while, J (judgement of the house). */
export const STORE_J = 20;
/** A large capacitor at the end of its life (makers' sheets, read: down to 70 % of its capacitance, twice its resistance). */
const OLD = { share: 0.7, ohm: 2 } as const;

/** What carries a computer after its supply has gone, and for how long. */
export interface Carried {
  readonly store: PartView;
  readonly computer: PartView;
  /** The converter between them, or null when the store sits on the 5 V itself. */
  readonly converter: Converter | null;
  /** Volts across it with the engine running, and the least at which the computer still runs, V. */
  readonly fullV: number;
  readonly leastV: number;
  /** Taken out of it while the computer stops, W. */
  readonly watt: number;
  /** At the end of its life, F and ohm. */
  readonly farad: number;
  readonly ohm: number;
  /** 0 where it runs back into the vehicle instead. */
  readonly seconds: number;
  /** A feed that falls with the key and into which it runs back, nothing being in the way. */
  readonly leaks: PartView | null;
  /** Contacts between it and the computer. */
  readonly contacts: ReadonlySet<PartView>;
}

/** Stores of a plan: banks of supercapacitors, and capacitors large enough to be one. */
export function storesOf(facts: Facts): readonly PartView[] {
  return facts.ofKind('store', 'capacitor').filter((v) => v.kind.kind === 'store' || (v.facts.storeJ ?? 0) >= STORE_J);
}

/** Every store that carries a computer, with what it can do; one for each pair. */
export const carriedBy = once((facts): readonly Carried[] => storesOf(facts).flatMap((store) => carriedFrom(facts, store)));

/** Time for which a store of this size carries a steady power, s: `C ((V1 - I R)² - V2²) / 2 P`, I at the lowest voltage. */
export function carryS(c: Pick<Carried, 'fullV' | 'leastV' | 'watt' | 'farad' | 'ohm'>): number {
  if (c.watt <= 0) return Number.POSITIVE_INFINITY;
  const amp = c.watt / Math.max(c.leastV, 0.1);
  const top = c.fullV - amp * c.ohm;
  return top <= c.leastV ? 0 : (c.farad * (top ** 2 - c.leastV ** 2)) / (2 * c.watt);
}

function carriedFrom(facts: Facts, store: PartView): Carried[] {
  const fullV = facts.across(`${store.part.id}.+`, `${store.part.id}.-`, 'RUN_CHARGING', 'low');
  if (fullV === null || fullV <= 0) return [];
  const bank = store.kind.kind === 'store';
  const farad = bank ? bankFarad(store.s) * store.s.num('eolShare') : store.s.num('farad') * OLD.share;
  const ohm = OLD.ohm * (bank ? bankOhm(store.s) : store.s.num('esrOhm'));
  const from = spread(facts, netAt(facts, store, '+'));
  const feeds = [...facts.parts.values()].filter((v) => v.facts.tap && v.facts.tap.line !== '30');
  const leaks = feeds.find((feed) => from.has(netAt(facts, feed, feed.facts.tap!.terminal))) ?? null;
  const list: Carried[] = [];
  for (const computer of facts.ofKind('computer')) {
    const five = netAt(facts, computer, supplyPair(computer.s).plus);
    const direct = from.get(five);
    const converter = direct ? null : (converters(facts).find((c) => from.has(facts.netOf(c.inKey)) && spread(facts, facts.netOf(c.outKey)).has(five)) ?? null);
    const way = direct ?? (converter && from.get(facts.netOf(converter.inKey)));
    const watt = way ? drawnW(facts, computer, converter) : null;
    if (!way || watt === null) continue;
    const base = { store, computer, converter, fullV, watt, farad, ohm, leaks, contacts: way.contacts };
    const figures = { ...base, leastV: (converter ? (converter.load.minV ?? 0) : BOARD_SUPPLY.warnMaxV) + way.dropV };
    list.push({ ...figures, seconds: leaks ? 0 : carryS(figures) });
  }
  return list;
}

/** How long a computer's supply is sure to outlast the key with all stores that carry it, s, and what ends it. */
export function sureEnding(facts: Facts, computer: PartView, ending: Ending): Ending {
  let best = ending;
  for (const c of carriedBy(facts)) {
    if (c.computer !== computer) continue;
    let own: Ending = { ...ending, holdS: ending.holdS + c.seconds };
    for (const contact of c.contacts) {
      const opens = contactEnding(facts, contact);
      if (opens.holdS < own.holdS) own = { ...own, holdS: opens.holdS, by: contact, why: opens.why };
    }
    if (own.holdS > best.holdS) best = own;
  }
  return best;
}

interface Reached {
  readonly dropV: number;
  readonly contacts: ReadonlySet<PartView>;
}

/** Nets to which current can flow out of a store, with what diodes on the way lose. */
function spread(facts: Facts, start: number): ReadonlyMap<number, Reached> {
  const found = new Map<number, Reached>(start === -1 ? [] : [[start, { dropV: 0, contacts: new Set() }]]);
  for (const [net, here] of found) {
    for (const hop of hopsOf(facts).get(net) ?? []) {
      if (found.has(hop.to) || !passes(hop) || grounded(facts, hop.to)) continue;
      const contacts = hop.link.type === 'contact' ? new Set([...here.contacts, hop.views[0]!]) : here.contacts;
      found.set(hop.to, { dropV: here.dropV + dropOf(hop), contacts });
    }
  }
  return found;
}

const HANDS: ReadonlySet<string> = new Set(['push-button', 'optocoupler', 'low-side-driver']);

function passes(hop: Hop): boolean {
  const view = hop.views[0]!;
  switch (hop.link.type) {
    case 'fuse':
    case 'conductor':
      return true;
    case 'diode':
      return hop.forward && view.kind.kind !== 'optocoupler' && view.kind.kind !== 'led';
    case 'contact':
      return !HANDS.has(view.kind.kind) && !(view.kind.kind === 'master-switch' && !view.s.flag('closed'));
    default:
      return false;
  }
}

function dropOf(hop: Hop): number {
  const view = hop.views[0]!;
  if (hop.link.type !== 'diode') return 0;
  if (view.kind.kind === 'diode') return DIODES[view.s.str('type') as DiodeType].vFMaxV;
  return view.kind.settings.some((s) => s.key === 'dropV') ? view.s.num('dropV') : DIODES['1n4007'].vFMaxV;
}

/** Power that the stop takes out of the store: what comes in at the converter, else what the 5 V pins take. Null when not solved. */
function drawnW(facts: Facts, computer: PartView, converter: Converter | null): number | null {
  if (converter) {
    const id = converter.view.part.id;
    const element = converter.view.kind.kind === 'linear-regulator' ? 'reg' : 'conv';
    const volt = facts.across(converter.inKey, `${id}.${converter.load.minus}`, 'RUN_CHARGING', 'typical');
    const amp = facts.elementA(id, element, 'RUN_CHARGING', 'typical', 'in');
    return volt === null || amp === null ? null : Math.abs(volt * amp);
  }
  const pair = supplyPair(computer.s);
  const volt = facts.across(`${computer.part.id}.${pair.plus}`, `${computer.part.id}.${pair.minus}`, 'RUN_CHARGING', 'typical');
  const amp = facts.elementA(computer.part.id, 'load', 'RUN_CHARGING', 'typical');
  return volt === null || amp === null ? null : Math.abs(volt * amp);
}
