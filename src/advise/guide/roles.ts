import type { Facts, PartView, TerminalKey } from '../../analysis/factsTypes.ts';
import { zoneOrder } from '../../plan/edits.ts';
import type { Id, Plan, Zone } from '../../plan/types.ts';
import { behindMaster, fuseEnds } from '../../rules/keyLine.ts';
import { zoneClimate } from '../../trade/zones.ts';
import type { Kit } from './kit.ts';

/** Hotter than this while it runs is no place for the computer when another can be had, degrees C (common practice, no source). */
const COOL_C = 55;
/** To under a seat until it is measured, m (common practice, no source). */
const TO_SEAT_M = 2.2;

/** The parts that carry the build, as far as they are there. */
export interface Roles {
  readonly battery: PartView | undefined;
  readonly ground: PartView | undefined;
  readonly hold: PartView | undefined;
  readonly converter: PartView | undefined;
  readonly computer: PartView | undefined;
  readonly master: PartView | undefined;
  readonly display: PartView | undefined;
  readonly sensor: PartView | undefined;
}

export function rolesOf(facts: Facts): Roles {
  const first = (...kinds: string[]): PartView | undefined => facts.ofKind(...kinds)[0];
  return {
    battery: first('battery'),
    ground: facts.ofKind('chassis-ground').find((v) => v.part.owner === 'build'),
    hold: first('delay-off-relay', 'hold-latch'),
    converter: first('step-down'),
    computer: first('computer'),
    master: first('master-switch'),
    display: first('touch-display'),
    sensor: first('optocoupler'),
  };
}

/** The terminals of the part that holds: a relay and a latch call theirs differently. */
export function holdEnds(hold: PartView): { readonly in: TerminalKey; readonly trigger: TerminalKey; readonly out: TerminalKey; readonly minus: TerminalKey } {
  const at = (terminal: string): TerminalKey => `${hold.part.id}.${terminal}`;
  return hold.kind.kind === 'hold-latch'
    ? { in: at('in'), trigger: at('set'), out: at('out'), minus: at('gnd') }
    : { in: at('30'), trigger: at('15'), out: at('87'), minus: at('31') };
}

/** The first feed of a line that is joined to the battery, else the first there is. */
export function feedOf(facts: Facts, line: '30' | '15'): PartView | undefined {
  const feeds = facts.ofKind(`feed-${line}`);
  return feeds.find((f) => facts.isWired(`${f.part.id}.in`)) ?? feeds[0];
}

/** The far side of the fuse at a feed; null when there is none. */
export function fusedEnd(facts: Facts, feed: PartView | undefined): TerminalKey | null {
  const end = feed && fuseEnds(facts, feed)[0];
  return end ? `${end.part}.${end.terminal}` : null;
}

/** Where the key's line goes on from: behind the master switch, else behind the fuse. */
export function keyEnd(facts: Facts): TerminalKey | null {
  const feed = feedOf(facts, '15');
  const fused = feed && fuseEnds(facts, feed)[0];
  if (!fused) return null;
  const { part, terminal } = behindMaster(facts, fused);
  return `${part}.${terminal}`;
}

/** Is the terminal, over wires, joined to the body or to the battery's negative post? */
export function onBody(facts: Facts, key: TerminalKey): boolean {
  return facts.netTerminals(facts.netOf(key)).some((k) => {
    const at = facts.at(k);
    return at?.view.kind.kind === 'chassis-ground' || (at?.view.kind.kind === 'battery' && at.terminal.id === '-');
  });
}

/** Where the vehicle's leads come out: the zone of a feed, else the first behind the dash, else the second. */
export function dashZone(plan: Plan): Id {
  const zones = inOrder(plan);
  const feed = Object.values(plan.parts).find((p) => p.kind.startsWith('feed-'));
  const found = zones.find((z) => z.kind === 'dash') ?? zones[1] ?? zones[0];
  if (!found) throw new Error('a plan has at least one zone');
  return feed?.zone ?? found.id;
}

/** Where computer and supply go: where they are, else the coolest zone; a new one under a seat when all are hot. */
export function coolZone(kit: Kit): Id {
  const { plan } = kit;
  const there = Object.values(plan.parts).find((p) => p.kind === 'computer' || p.kind === 'step-down');
  if (there) return there.zone;
  const inside = inOrder(plan).filter((z) => z.kind !== 'engine-bay' && z.kind !== 'outside');
  const coolest = [...inside].sort((a, b) => runningC(a) - runningC(b))[0];
  if (coolest && runningC(coolest) <= COOL_C) return coolest.id;
  return kit.zone(zoneClimate('under-seat').title, 'under-seat', dashZone(plan), TO_SEAT_M);
}

/** Where display and buttons go: the rightmost zone inside the cab that is not the computer's, else the computer's. */
export function seenZone(plan: Plan): Id {
  const display = Object.values(plan.parts).find((p) => p.kind === 'touch-display');
  if (display) return display.zone;
  const computer = Object.values(plan.parts).find((p) => p.kind === 'computer')?.zone;
  const seen = inOrder(plan).filter((z) => z.id !== computer && !['engine-bay', 'outside', 'load-bay'].includes(z.kind));
  return seen.at(-1)?.id ?? computer ?? dashZone(plan);
}

const runningC = (zone: Zone): number => zone.maxC ?? zoneClimate(zone.kind).runningMaxC;
const inOrder = (plan: Plan): Zone[] => zoneOrder(plan).flatMap((id) => plan.zones[id] ?? []);
