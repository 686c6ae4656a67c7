import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { stopS } from '../parts/computer/settings.ts';
import type { Line } from '../plan/types.ts';
import { isLive } from '../trade/lines.ts';
import { once } from './once.ts';
import { type PinUse, pinUsesSeeing } from './pins.ts';
import { type Converter, converters } from './rails.ts';
import { type Hop, hopsOf, netAt } from './trace.ts';

/** What may end a supply, and how long after key-off at the earliest. */
export interface Ending {
  /** Seconds after key-off for which the supply is sure to last; Infinity when nothing opens it. */
  readonly holdS: number;
  /** What opens first; null when nothing does. */
  readonly by: PartView | null;
  readonly why: 'line' | 'timer' | 'relay' | 'latch' | 'cut-out' | 'nothing';
  /** A switch within a person's reach that every such way passes; null when none does. It opens when that person wants, whatever the key does. */
  readonly cutBy: PartView | null;
  /** Feeds and battery posts that it comes from. */
  readonly feeds: ReadonlySet<PartView>;
  /** Everything with a contact that it passes on the way. */
  readonly contacts: ReadonlySet<PartView>;
}

const LASTS = Number.POSITIVE_INFINITY;

/**
 * How long what arrives at a terminal outlives the key, over the best of its feeds and at the least of every device on the
 * way that can open: the line itself, a hold relay or latch, a relay whose coil falls, a cut-out, a converter's enable. Null when
 * no feed and no battery reaches the terminal.
 */
export function endingAt(facts: Facts, view: PartView, terminal: string): Ending | null {
  return endings(facts).get(netAt(facts, view, terminal)) ?? null;
}

const endings = once(workOut);

/** Rounds in which what steers a contact (a coil, a trigger, an enable) is taken from the round before. */
const ROUNDS = 4;

function workOut(facts: Facts): ReadonlyMap<number, Ending> {
  let steered: ReadonlyMap<number, Ending> = new Map();
  for (let round = 0; round < ROUNDS; round++) {
    const next = spread(facts, steered);
    // What comes out as it went in comes out so for ever.
    if (alike(steered, next)) return next;
    steered = next;
  }
  return steered;
}

function alike(a: ReadonlyMap<number, Ending>, b: ReadonlyMap<number, Ending>): boolean {
  if (a.size !== b.size) return false;
  for (const [net, x] of a) {
    const y = b.get(net);
    if (!y || x.holdS !== y.holdS || x.by !== y.by || x.why !== y.why || x.cutBy !== y.cutBy) return false;
    if (x.feeds.size !== y.feeds.size || x.contacts.size !== y.contacts.size || !holds(x.feeds, y.feeds) || !holds(x.contacts, y.contacts)) return false;
  }
  return true;
}

/** Spreads from the sources over nets until nothing lasts longer any more; values only grow, so it comes to an end. */
function spread(facts: Facts, steered: ReadonlyMap<number, Ending>): Map<number, Ending> {
  const at = new Map<number, Ending>();
  // Nets that have got better since they were last passed on; the same again would change nothing.
  const fresh = new Set<number>();
  const offer = (net: number, e: Ending): void => {
    const known = at.get(net);
    const feeds = joined(known?.feeds, e.feeds);
    const contacts = joined(known?.contacts, e.contacts);
    const worse = known !== undefined && (e.holdS < known.holdS || (e.holdS === known.holdS && (e.cutBy !== null || known.cutBy === null)));
    if (net === -1 || (worse && feeds === known.feeds && contacts === known.contacts)) return;
    at.set(net, { ...(worse ? known : e), feeds, contacts });
    fresh.add(net);
  };
  for (const view of facts.parts.values()) for (const s of view.facts.sources ?? []) seed(facts, view, s, offer);
  while (fresh.size > 0) {
    for (const [net, hops] of hopsOf(facts)) {
      if (!fresh.delete(net)) continue;
      for (const hop of hops) {
        const next = passed(facts, at.get(net)!, hop, steered);
        if (next) offer(hop.to, next);
      }
    }
    // Nothing leads on from the rest but a converter.
    for (const net of fresh) if (!hopsOf(facts).has(net)) fresh.delete(net);
    for (const c of converters(facts)) convert(facts, c, at, steered, offer);
  }
  return at;
}

/** The first set where it holds all of the second, else both together. */
function joined(known: ReadonlySet<PartView> | undefined, more: ReadonlySet<PartView>): ReadonlySet<PartView> {
  if (!known) return more;
  return holds(known, more) ? known : new Set([...known, ...more]);
}

/** Is all of the second set in the first? */
function holds(set: ReadonlySet<PartView>, all: ReadonlySet<PartView>): boolean {
  for (const v of all) if (!set.has(v)) return false;
  return true;
}

function seed(facts: Facts, view: PartView, s: { terminal: string; kind: string; line?: Line }, offer: (net: number, e: Ending) => void): void {
  if (s.kind !== 'battery' && s.kind !== 'feed') return;
  const falls = s.line !== undefined && !isLive(s.line, 'RETAIN_DOOR');
  offer(netAt(facts, view, s.terminal), {
    holdS: falls ? 0 : LASTS,
    by: falls ? view : null,
    why: falls ? 'line' : 'nothing',
    cutBy: null,
    feeds: new Set([view]),
    contacts: new Set(),
  });
}

/** What is left behind a hop; null when supply current does not go that way. */
function passed(facts: Facts, here: Ending, hop: Hop, steered: ReadonlyMap<number, Ending>): Ending | null {
  const view = hop.views[0]!;
  switch (hop.link.type) {
    case 'fuse':
    case 'conductor':
      return here;
    case 'diode':
      return hop.forward && view.kind.kind !== 'optocoupler' && view.kind.kind !== 'led' ? here : null;
    case 'contact':
      return contact(facts, here, view, steered);
    default:
      return null;
  }
}

/** When a contact opens by itself, whatever feeds it. */
export function contactEnding(facts: Facts, view: PartView): Pick<Ending, 'holdS' | 'why'> {
  const always: Ending = { holdS: LASTS, by: null, why: 'nothing', cutBy: null, feeds: new Set(), contacts: new Set() };
  return contact(facts, always, view, endings(facts)) ?? { holdS: 0, why: 'line' };
}

function contact(facts: Facts, here: Ending, view: PartView, steered: ReadonlyMap<number, Ending>): Ending | null {
  // Not back the way it came: a relay that hangs on a supply is not in its way.
  if (here.contacts.has(view)) return null;
  const contacts = joined(here.contacts, new Set([view]));
  const through = { ...here, contacts };
  const cap = (holdS: number, why: Ending['why']): Ending => (holdS < here.holdS ? { ...through, holdS, by: view, why } : through);
  switch (view.kind.kind) {
    case 'master-switch':
      return view.s.flag('closed') ? { ...through, cutBy: here.cutBy ?? view } : null;
    case 'delay-off-relay': {
      const trigger = steered.get(netAt(facts, view, '15'));
      // A trigger that never falls keeps the contact closed for ever.
      return trigger?.holdS === LASTS ? through : cap(view.s.num('holdS') * (1 - view.s.num('holdTol')), 'timer');
    }
    case 'relay': {
      const coil = steered.get(netAt(facts, view, '86')) ?? steered.get(netAt(facts, view, '85'));
      return coil ? cap(coil.holdS, 'relay') : through;
    }
    case 'hold-latch':
      return cap(latchS(facts, view, steered), 'latch');
    case 'low-voltage-cutout':
      return cap(warningS(facts, view), 'cut-out');
    default:
      return null;
  }
}

/** A latch stays closed while it is set; then for as long as a pin holds it, up to its backstop, else for its release time. */
function latchS(facts: Facts, latch: PartView, steered: ReadonlyMap<number, Ending>): number {
  const setS = Math.max(0, ...['set', 'set2'].map((t) => steered.get(netAt(facts, latch, t))?.holdS ?? 0));
  if (!holdingPin(facts, latch)) return setS + latch.s.num('releaseS') * (1 - latch.s.num('timeTol'));
  const backstopS = latch.s.num('backstopS');
  return backstopS === 0 ? LASTS : setS + backstopS * (1 - latch.s.num('timeTol'));
}

/** The output pin that keeps a latch closed while its computer is up; null when no pin drives it. */
export function holdingPin(facts: Facts, latch: PartView): PinUse | null {
  const net = netAt(facts, latch, 'hold');
  return pinUsesSeeing(facts, net).find((u) => u.mode === 'out') ?? null;
}

/** A cut-out opens whenever the battery is low: only a warning that reaches a pin gives a computer time. */
function warningS(facts: Facts, cutout: PartView): number {
  if (!cutout.s.flag('warns')) return 0;
  const net = netAt(facts, cutout, 'warn');
  const heard = pinUsesSeeing(facts, net).length > 0;
  return heard ? cutout.s.num('delayS') * (1 - cutout.s.num('timeTol')) : 0;
}

/** A converter's output lasts as long as its input, and as its enable where that is joined. */
function convert(
  facts: Facts,
  { view, source, load }: Converter,
  at: ReadonlyMap<number, Ending>,
  steered: ReadonlyMap<number, Ending>,
  offer: (net: number, e: Ending) => void,
): void {
  const here = at.get(netAt(facts, view, load.plus));
  if (!here) return;
  const enable = view.terminals.some((t) => t.id === 'en') && view.s.str('enActive') === 'high' ? steered.get(netAt(facts, view, 'en')) : undefined;
  const out = enable && enable.holdS < here.holdS ? { ...here, holdS: enable.holdS, by: enable.by, why: enable.why } : here;
  offer(netAt(facts, view, source.terminal), out);
}

/** What a stop is given on top of its longest time: a quarter, at least 5 s (fitters' habit). */
const MARGIN = { share: 0.25, leastS: 5 } as const;

/** Time after key-off for which a computer must be sure of its supply, s. */
export function stopNeedS(computer: PartView): number {
  return needAfter(stopS(computer.s));
}

/** The same for a stop that takes at most so long, s. */
export function needAfter(stop: number): number {
  return stop + Math.max(MARGIN.leastS, MARGIN.share * stop);
}
