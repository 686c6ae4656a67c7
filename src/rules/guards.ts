import type { Facts, PartView, Step, TerminalKey } from '../analysis/factsTypes.ts';
import { meltI2t } from '../trade/fuses.ts';
import { DIODES, type DiodeFacts, type DiodeType } from '../trade/semiconductors.ts';
import { once } from './once.ts';
import { cornersOf, lastFuse, railOver, vehicleRail, type Way } from './rails.ts';
import { atTap } from './taps.ts';

/** Kinds whose polarity other rules judge: coils with a diode, indicator and sensing LEDs; a guard is there to be reversed. */
const JUDGED_ELSEWHERE = new Set(['relay', 'optocoupler', 'led', 'reverse-guard']);
/** I2t of one 50 Hz or 60 Hz half wave at peak I: I2 x 8.3 ms / 2 (rectifier data sheets). */
const HALF_WAVE_S = 0.0083 / 2;
/** A diode across the supply must stand this many times what the fuse lets through before it opens (common practice, no source). */
const FUSE_SHARE = 3;
/** What stands across a supply instead of living from it. */
const ACROSS = new Set(['capacitor', 'surge-clamp']);
/** Repetitive reverse rating from which a series guard stands the negative spike of a 12 V vehicle by itself, V. */
const ALONE_V = 200;
/** Below this no clamp makes a series guard good enough, V. */
const LEAST_V = 60;

/** What a reversed battery reaches behind one fuse (or behind a bare tap). */
export interface Exposure {
  readonly fuse: PartView | null;
  readonly way: Way;
  readonly parts: readonly { readonly view: PartView; readonly minus: string; readonly steps: readonly Step[] }[];
}

/** Everything on the vehicle's volts that minds polarity, and those parts of it that nothing guards. */
export function reversedReach(facts: Facts): { readonly minding: readonly PartView[]; readonly exposures: readonly Exposure[] } {
  const rail = vehicleRail(facts);
  const open = openRail(facts);
  const minding: PartView[] = [];
  const groups = new Map<string, { fuse: PartView | null; way: Way; parts: Exposure['parts'][number][] }>();
  for (const view of facts.parts.values()) {
    const pair = JUDGED_ELSEWHERE.has(view.kind.kind) ? undefined : view.facts.polar?.find((p) => rail.has(`${view.part.id}.${p.plus}`));
    if (!pair || !facts.isWired(`${view.part.id}.${pair.minus}`)) continue;
    minding.push(view);
    const way = open.get(`${view.part.id}.${pair.plus}`);
    if (!way || (pair.reverseV ?? 0) >= reversedV(facts, way)) continue;
    const fuse = lastFuse(way.steps);
    if (fuse && shuntDiode(facts, open, fuse)) continue;
    const key = fuse?.part.id ?? way.tap.key;
    const group = groups.get(key) ?? { fuse, way, parts: [] };
    group.parts.push({ view, minus: `${view.part.id}.${pair.minus}`, steps: way.steps });
    groups.set(key, group);
  }
  return { minding, exposures: [...groups.values()] };
}

/** Volts of a reversed battery on a way: of both where they stand in series, of one where the way begins between them, V. */
export function reversedV(facts: Facts, way: Way): number {
  return atTap(facts, way.tap, facts.corners.reverseV);
}

/** Terminals that a reversed battery reaches: through fuses, contacts and chokes, but no guard and no diode. */
export const openRail = once(
  (facts): ReadonlyMap<TerminalKey, Way> => railOver(facts, ['fuse', 'contact', 'conductor'], (view) => view.kind.kind === 'reverse-guard'),
);

/** A diode from ground to the rail behind this fuse, strong enough to blow it. */
function shuntDiode(facts: Facts, open: ReadonlyMap<TerminalKey, Way>, fuse: PartView): boolean {
  return facts.ofKind('diode').some((d) => {
    const way = open.get(`${d.part.id}.K`);
    if (!way || lastFuse(way.steps) !== fuse || !facts.isGround(facts.netOf(`${d.part.id}.A`))) return false;
    return diodeFacts(d).surgeA ** 2 * HALF_WAVE_S >= FUSE_SHARE * meltI2t(fuse.s.num('ratingA'));
  });
}

export function diodeFacts(view: PartView): DiodeFacts {
  return DIODES[view.s.str('type') as DiodeType] ?? DIODES['1n4148'];
}

/** A guard in series with a feed, and what it would need. */
export interface SeriesGuard {
  readonly view: PartView;
  readonly reverseV: number;
  /** Both-ways clamp ahead of it on the same rail, with the reverse volts that it leaves, V. */
  readonly clamp: PartView | null;
  readonly leftV: number;
  readonly strong: boolean;
}

/**
 * Reverse guards and series diodes that a feed passes. The negative spike of ISO 7637-2 (pulse 1: -150 V in a 12 V
 * vehicle) adds to the charged bulk behind it: 200 V class in a 12 V vehicle, else a both-ways clamp ahead must keep the sum below the rating.
 */
export function seriesGuards(facts: Facts): SeriesGuard[] {
  const rail = vehicleRail(facts);
  const open = openRail(facts);
  const corners = cornersOf(facts);
  const list: SeriesGuard[] = [];
  for (const view of facts.ofKind('reverse-guard', 'diode')) {
    const [input, output] = view.kind.kind === 'diode' ? ['A', 'K'] : ['in', 'out'];
    const way = open.get(`${view.part.id}.${input}`);
    if (!way || !rail.has(`${view.part.id}.${output}`)) continue;
    const reverseV = view.kind.kind === 'diode' ? diodeFacts(view).reverseV : view.s.num('reverseV');
    const clamp = clampAhead(facts, open, lastFuse(way.steps));
    const leftV = clamp ? clamp.s.num('clampV') + corners.chargeV : -corners.pulse1V + corners.chargeV;
    const strong = (facts.plan.vehicle.systemV === 12 && reverseV >= ALONE_V) || (clamp !== null && reverseV >= LEAST_V && leftV <= reverseV);
    list.push({ view, reverseV, clamp, leftV, strong });
  }
  return list;
}

/**
 * The guard behind the same fuse, where all that is open to a reversed supply stands across it (capacitors, clamps): they
 * need no guard of their own, only a place behind that one. Its output terminal; null where there is no such guard.
 */
export function guardBeside(facts: Facts, e: Exposure): { readonly view: PartView; readonly out: TerminalKey } | null {
  if (e.fuse === null || e.parts.some((p) => !ACROSS.has(p.view.kind.kind))) return null;
  const open = openRail(facts);
  const found = seriesGuards(facts).find(({ view }) => {
    const way = open.get(`${view.part.id}.${view.kind.kind === 'diode' ? 'A' : 'in'}`);
    return way !== undefined && lastFuse(way.steps) === e.fuse;
  });
  return found ? { view: found.view, out: `${found.view.part.id}.${found.view.kind.kind === 'diode' ? 'K' : 'out'}` } : null;
}

function clampAhead(facts: Facts, open: ReadonlyMap<TerminalKey, Way>, fuse: PartView | null): PartView | null {
  const found = facts.ofKind('surge-clamp').find((c) => {
    const way = open.get(`${c.part.id}.K`);
    return c.s.flag('bidirectional') && way !== undefined && fuse !== null && lastFuse(way.steps) === fuse;
  });
  return found ?? null;
}
