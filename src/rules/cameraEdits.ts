import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { Draft } from '../plan/draft.ts';
import { movedEnd, onlyWire } from './build.ts';
import { called } from './defineRule.ts';
import { addFused, newFeed } from './holdEdits.ts';
import { keyFeeds } from './keyLine.ts';
import type { Repair } from './types.ts';

/** Takes the only wire to a camera's plus from the reversing lamp to a fuse of its own on ignition; none where it shares that wire. */
export function poweredWhileDriving(facts: Facts, camera: PartView): Repair[] {
  const id = camera.part.id;
  const wire = onlyWire(facts.plan, id, '+');
  if (!wire) return [];
  const key = keyFeeds(facts)[0];
  return [
    {
      title: `Power it from ${key ? called(key) : 'ignition 15'} while driving, over a fuse of its own`,
      safe: false,
      edit: (plan) => {
        const row = plan.wires[wire.id];
        const near = plan.parts[id];
        if (!row || !near) return null;
        const draft = new Draft(plan);
        const feed = key && plan.parts[key.part.id] ? key.part.id : newFeed(draft, 'feed-15', near);
        const supply = addFused(draft, feed, 'Camera fuse', {});
        if (!supply) return null;
        const other = row.from.part === id ? row.to : row.from;
        draft.setWire(movedEnd(row, other, supply, true));
        return draft.edit('repair.apply', 'Power the camera while driving');
      },
    },
  ];
}
