import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import type { Wire } from '../../plan/types.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { along, change, isShunt, type Tap, taps, unfusedReach } from '../taps.ts';

const { fine, found } = verdicts('shunt-ahead-of-fuse', 'A12');

export const shuntAheadOfFuse = defineRule({
  id: 'shunt-ahead-of-fuse',
  code: 'A12',
  level: 'hazard',
  title: 'Clamp or capacitor ahead of the fuse',
  why: 'Clamps, diodes and capacitors fail as a short circuit. Behind the fuse that costs a fuse; ahead of it nothing opens.',
  source: { text: 'Clamps fail short (makers’ application notes, from memory); fuse first, then the clamp', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  // What makes a reversed supply a hazard for it is the missing fuse; behind the fuse the guard is asked for again.
  explains: ['reversed-supply'],
  check: (facts) => {
    const bare = ahead(facts);
    return [...facts.parts.values()]
      .filter((v) => isShunt(v) && bridgesGround(facts, v))
      .map((view) => {
        const hit = bare.get(view);
        if (!hit) return fine(part(view.part.id));
        return found({
          level: 'hazard',
          subject: part(view.part.id),
          related: [part(hit.tap.view.part.id), ...along(facts, hit.steps).wires.map((w) => wire(w.id))],
          what: `${called(view)} stands between ${called(hit.tap.view)} and ground with no fuse ahead of it.`,
          todo: 'Join it behind the fuse.',
        });
      });
  },
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const hit = view && ahead(facts).get(view);
    if (!view || !hit) return [];
    const behind = fuseOf(facts, hit.tap);
    const mine = facts.netWires(facts.netOf(hit.key)).filter((w) => w.owner === 'build' && endAt(w, hit.key) !== null);
    const one = mine[0];
    if (!behind || !one || mine.length !== 1) return [];
    const [id, terminal] = split(behind.far);
    return [
      {
        title: `Join it behind ${called(behind.fuse)}`,
        safe: true,
        edit: (plan) =>
          change(plan, 'wire.move', 'Join behind the fuse', (draft) => {
            const row = plan.wires[one.id];
            if (!row) return;
            const side = endAt(row, hit.key) === 'from' ? 'to' : 'from';
            draft.setWire({ ...row, [side]: { part: id, terminal } });
          }),
      },
    ];
  },
});

interface Hit {
  readonly tap: Tap;
  readonly steps: readonly Step[];
  /** The shunt's terminal on the live side. */
  readonly key: string;
}

/** Shunts to ground that a tap reaches without passing a fuse. A store is a tap itself and does not stand ahead of its own fuse. */
function ahead(facts: Facts): Map<PartView, Hit> {
  const hits = new Map<PartView, Hit>();
  for (const tap of taps(facts)) {
    for (const [key, steps] of unfusedReach(facts, tap)) {
      const view = facts.at(key)?.view;
      if (!view || view === tap.view || hits.has(view) || !isShunt(view) || facts.isGround(facts.netOf(key)) || !bridgesGround(facts, view)) continue;
      hits.set(view, { tap, steps, key });
    }
  }
  return hits;
}

/** Does it lie between a live net and ground? */
function bridgesGround(facts: Facts, view: PartView): boolean {
  const nets = view.terminals.map((t) => facts.netOf(`${view.part.id}.${t.id}`));
  return nets.some((n) => facts.isGround(n)) && nets.some((n) => !facts.isGround(n) && (facts.nominalV(n) ?? 0) > 0);
}

/** The fuse behind this tap, with its far side; not one that another way goes round. */
function fuseOf(facts: Facts, tap: Tap): { fuse: PartView; far: string } | null {
  const bare = unfusedReach(facts, tap);
  for (const key of bare.keys()) {
    const hit = facts.at(key);
    if (hit?.view.kind.kind !== 'blade-fuse') continue;
    const far = `${hit.view.part.id}.${hit.terminal.id === '1' ? '2' : '1'}`;
    if (!bare.has(far)) return { fuse: hit.view, far };
  }
  return null;
}

function endAt(w: Wire, key: string): 'from' | 'to' | null {
  if (`${w.from.part}.${w.from.terminal}` === key) return 'from';
  return `${w.to.part}.${w.to.terminal}` === key ? 'to' : null;
}

function split(key: string): readonly [part: string, terminal: string] {
  const dot = key.indexOf('.');
  return [key.slice(0, dot), key.slice(dot + 1)];
}
