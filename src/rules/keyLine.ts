import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { wiresOn } from '../plan/connect.ts';
import type { End } from '../plan/types.ts';
import { end } from './build.ts';
import { endingAt } from './supplyHold.ts';
import { netAt } from './trace.ts';

/** Lines that fall with the key, the soonest and surest first. */
const FALLING = ['15', '75'] as const;

/** Feeds of the plan whose line falls with the key and is not tied to one that stays, best first. */
export function keyFeeds(facts: Facts): readonly PartView[] {
  return FALLING.flatMap((line) => facts.ofKind(`feed-${line}`)).filter((feed) => endingAt(facts, feed, 'out')?.holdS === 0);
}

/**
 * Where a thin wire may be joined to a feed: behind the first fuse on it, and behind the master switch there, so that what
 * watches the line hears of that too. Null when it has no fuse yet.
 */
export function fusedLine(facts: Facts, feed: PartView): End | null {
  const fused = fusedLines(facts, feed)[0];
  return fused ? behindMaster(facts, fused) : null;
}

/** The far side of a master switch that stands at a line; the line itself where none does. */
export function behindMaster(facts: Facts, line: End): End {
  const net = facts.netAt(line.part, line.terminal);
  for (const master of facts.ofKind('master-switch')) for (const [near, far] of SIDES) if (netAt(facts, master, near) === net) return end(master.part.id, far);
  return line;
}

/** The far sides of all fuses that stand at a feed and lead on. */
export function fusedLines(facts: Facts, feed: PartView): readonly End[] {
  return fuseEnds(facts, feed).filter((far) => wiresOn(facts.plan, far.part, far.terminal).length > 0);
}

/** The far sides of all fuses that stand at a feed, whether anything hangs on them or not. */
export function fuseEnds(facts: Facts, feed: PartView): readonly End[] {
  const net = netAt(facts, feed, 'out');
  return facts.ofKind('blade-fuse').flatMap((fuse) => SIDES.filter(([near]) => netAt(facts, fuse, near) === net).map(([, far]) => end(fuse.part.id, far)));
}

const SIDES = [
  ['1', '2'],
  ['2', '1'],
] as const;
