import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { Draft } from '../plan/draft.ts';
import { end, farEnd, movedEnd, onlyWire, sameEnd } from './build.ts';
import { called } from './defineRule.ts';
import { fuseEnds, keyFeeds } from './keyLine.ts';
import type { Repair } from './types.ts';

/** Moves the far end of the only wire on a terminal behind the fuse of another feed: the first of these that has one, by itself a line that falls with the key. */
export function joinInstead(facts: Facts, view: PartView, terminal: string, verb: string, feeds: readonly PartView[] = keyFeeds(facts)): Repair[] {
  const wire = onlyWire(facts.plan, view.part.id, terminal);
  if (!wire) return [];
  for (const feed of feeds) {
    const to = fuseEnds(facts, feed)[0];
    if (!to || sameEnd(to, farEnd(wire, view.part.id))) continue;
    return [
      {
        title: `${verb} ${called(view)} from ${called(feed)}`,
        safe: false,
        edit: (plan) => {
          const row = plan.wires[wire.id];
          if (!row || sameEnd(farEnd(row, view.part.id), to)) return null;
          const draft = new Draft(plan);
          draft.setWire(movedEnd(row, farEnd(row, view.part.id), end(to.part, to.terminal)));
          return draft.edit('repair.apply', `${verb} from another line`);
        },
      },
    ];
  }
  return [];
}
