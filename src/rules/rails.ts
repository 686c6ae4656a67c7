import type { Facts, PartView, Step, TerminalKey } from '../analysis/factsTypes.ts';
import type { Link, LoadFact, SourceFact } from '../parts/types.ts';
import { supplyCorners } from '../trade/supply.ts';
import { once } from './once.ts';
import { type Tap, taps } from './taps.ts';

/** How the vehicle's current comes to a terminal. */
export interface Way {
  readonly tap: Tap;
  readonly steps: readonly Step[];
}

const FORWARD = ['fuse', 'contact', 'conductor', 'diode'];

/**
 * Every terminal on the vehicle's own volts: what taps reach through fuses, contacts, chokes and diodes, one way each.
 * Resistors end it (what is behind them sees next to no current), ground does not count.
 */
export const vehicleRail = once((facts): ReadonlyMap<TerminalKey, Way> => railOver(facts, FORWARD));

/** The same over chosen links only. */
export function railOver(facts: Facts, through: readonly string[], avoid?: (view: PartView, link: Link) => boolean): ReadonlyMap<TerminalKey, Way> {
  const rail = new Map<TerminalKey, Way>();
  for (const tap of taps(facts)) {
    if (tap.source.kind === 'store') continue;
    const reached = facts.reach(tap.key, through, (view, link) => isTransistor(view) || (avoid?.(view, link) ?? false));
    for (const key of reached.keys()) {
      if (!rail.has(key) && !facts.isGround(facts.netOf(key))) rail.set(key, { tap, steps: reached.get(key)! });
    }
  }
  return rail;
}

/** The last fuse that a way passes, or null. */
export function lastFuse(steps: readonly Step[]): PartView | null {
  return [...steps].reverse().find((s) => s.linkType === 'fuse')?.through ?? null;
}

/** The output of an optocoupler is a contact to a trace, but it carries milliamps. */
function isTransistor(view: PartView): boolean {
  return view.kind.kind === 'optocoupler';
}

export interface Converter {
  readonly view: PartView;
  /** Its input. */
  readonly load: LoadFact;
  /** Its output. */
  readonly source: SourceFact;
  readonly inKey: TerminalKey;
  readonly outKey: TerminalKey;
}

/** Everything that makes another voltage of the vehicle's: step-down converters and linear regulators. */
export const converters = once((facts): readonly Converter[] => {
  const list: Converter[] = [];
  for (const view of facts.parts.values()) {
    const source = view.facts.sources?.find((s) => s.kind === 'converter');
    const load = view.facts.loads?.[0];
    if (source && load) list.push({ view, load, source, inKey: `${view.part.id}.${load.plus}`, outKey: `${view.part.id}.${source.terminal}` });
  }
  return list;
});

/** Does a computer hang on it, by itself or behind further converters? */
export function feedsComputer(facts: Facts, c: Converter): boolean {
  const all = converters(facts);
  const passed = new Set<PartView>([c.view]);
  const open: Converter[] = [c];
  for (let at = open.pop(); at; at = open.pop()) {
    for (const key of facts.reach(at.outKey, FORWARD).keys()) {
      const view = facts.at(key)?.view;
      if (view === undefined || passed.has(view)) continue;
      if (view.kind.kind === 'computer') return true;
      const next = all.find((x) => x.view === view && x.inKey === key);
      if (!next) continue;
      passed.add(view);
      open.push(next);
    }
  }
  return false;
}

/** Current out of a converter at the lowest supply, A: the most for a moment, and what heats. */
export function outputA(facts: Facts, c: Converter): { readonly peakA: number; readonly heatA: number } {
  const element = c.view.kind.kind === 'linear-regulator' ? 'reg' : 'conv';
  const heatA = facts
    .netWires(facts.netOf(c.outKey))
    .filter((w) => [w.from, w.to].some((e) => `${e.part}.${e.terminal}` === c.outKey))
    .reduce((sum, w) => sum + (facts.analysis.wires[w.id]?.heatA ?? 0), 0);
  return { peakA: Math.abs(facts.designElementA(c.view.part.id, element, 'out') ?? 0), heatA };
}

/** Load dump to design for, V: the clamped one only where somebody has said that the alternator clamps. */
export function dumpV(facts: Facts): number {
  return facts.plan.vehicle.centralClamping === 'yes' ? facts.corners.dumpClampedV : facts.corners.dumpUnclampedV;
}

/** All corners of the vehicle, with the source figures of its surges. */
export function cornersOf(facts: Facts): ReturnType<typeof supplyCorners> {
  return supplyCorners(facts.plan.vehicle.systemV, facts.plan.vehicle.dipLevel);
}

/** " (the worst is taken ...)" where nobody has answered whether the alternator clamps. */
export function clampingNote(facts: Facts): string {
  const { centralClamping } = facts.plan.vehicle;
  if (centralClamping === 'yes') return '';
  return centralClamping === 'no'
    ? ' from an alternator that does not clamp it'
    : ' (the worst is taken, for nobody has said whether the alternator clamps it)';
}

/** What to do about a dump that nothing clamps, or null where the alternator does. */
export function unclampedTodo(facts: Facts): string | null {
  const { centralClamping } = facts.plan.vehicle;
  if (centralClamping === 'yes') return null;
  return centralClamping === 'no'
    ? 'Put a series surge guard ahead of everything; no small clamp survives such a dump.'
    : 'Find out whether the alternator clamps the load dump; if not, a series surge guard must stand ahead of everything.';
}

/** Most changeovers that one trace tries both ways. */
const MOST_CHANGEOVERS = 10;

/**
 * What can be joined to a terminal at one time: like `reach`, but no way passes both contacts of one changeover, which
 * never close together.
 */
export function closableReach(facts: Facts, from: TerminalKey, through: readonly string[]): ReadonlyMap<TerminalKey, readonly Step[]> {
  const key = `${from} ${through.join()}`;
  const known = closable(facts);
  let found = known.get(key);
  if (!found) {
    // Seldom is a relay wired at both contacts; otherwise nothing can be passed twice, and no way needs to be followed.
    found = hasChangeover(facts) ? closableWays(facts, from, through) : facts.reach(from, through, isTransistor);
    known.set(key, found);
  }
  return found;
}

const closable = once(() => new Map<string, ReadonlyMap<TerminalKey, readonly Step[]>>());

function closableWays(facts: Facts, from: TerminalKey, through: readonly string[]): ReadonlyMap<TerminalKey, readonly Step[]> {
  const found = new Map<TerminalKey, readonly Step[]>();
  const search = (open: ReadonlySet<string>): void => {
    const barred = (view: PartView, link: Link): boolean => open.has(contactKey(view, link)) || isTransistor(view);
    const twice = new Set<PartView>();
    for (const [key, steps] of facts.reach(from, through, barred)) {
      const view = changeoverPassedTwice(steps);
      if (view) twice.add(view);
      else if (!found.has(key)) found.set(key, steps);
    }
    const first = [...twice][0];
    if (!first || open.size >= MOST_CHANGEOVERS) return;
    for (const contact of ['no', 'nc']) search(new Set([...open, `${first.part.id}:${contact}`]));
  };
  search(new Set());
  return found;
}

/** Is any relay wired at both contacts of its changeover? */
const hasChangeover = once((facts): boolean =>
  [...facts.parts.values()].some(
    ({ kind, part, facts: { links = [] } }) =>
      kind.kind === 'relay' && links.filter((l) => l.type === 'contact' && facts.isWired(`${part.id}.${l.b}`)).length > 1,
  ),
);

function contactKey(view: PartView, link: Link): string {
  return `${view.part.id}:${link.contact ?? ''}`;
}

function changeoverPassedTwice(steps: readonly Step[]): PartView | null {
  const seen = new Set<PartView>();
  for (const s of steps) {
    if (s.linkType !== 'contact' || s.through?.kind.kind !== 'relay') continue;
    if (seen.has(s.through)) return s.through;
    seen.add(s.through);
  }
  return null;
}
