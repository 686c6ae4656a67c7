import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import type { Id } from '../../plan/types.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { movePin } from '../movePin.ts';
import { moversOf, type PinUse, pinName, pinUses, pullsOn, relaysAt } from '../pins.ts';
import { grounded, type Hop, isResistor, netAt, railV, waysFrom } from '../trace.ts';

const { fine, found } = verdicts('pin-with-two-jobs', 'E2');

export const pinWithTwoJobs = defineRule({
  id: 'pin-with-two-jobs',
  code: 'E2',
  level: 'fault',
  title: 'One pin, two jobs',
  why: 'When two things pull the same pin low the computer cannot tell which of them it was: a button would look like the key, and the key like a button. And a pin that drives a relay cannot listen to a button as well.',
  source: { text: 'Universal practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    pinUses(facts)
      .map((use) => ({ use, jobs: jobsOf(facts, use) }))
      .filter(({ jobs }) => jobs.length > 0)
      .map(({ use, jobs }) => {
        const subject = wire(use.wire.id);
        if (!clash(jobs)) return fine(subject);
        const names = jobs.map((j) => called(j.view));
        return found({
          level: 'fault',
          subject,
          related: [part(use.computer.part.id), ...jobs.map((j) => part(j.view.part.id))],
          what: `${listed(names)} are ${names.length > 2 ? 'all' : 'both'} joined to ${pinName(use)}.`,
          todo: jobs.every((j) => j.view.kind.kind === 'push-button')
            ? 'Give each a pin of its own; buttons that are meant to do the same want the same name.'
            : 'Give each a pin of its own.',
        });
      }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    if (!use) return [];
    const jobs = jobsOf(facts, use);
    const last = jobs.at(-1)?.view;
    if (!last || clash(jobs.slice(0, -1))) return [];
    const wires = wiresTowards(
      facts,
      use,
      last,
      jobs.slice(0, -1).map((j) => j.view),
    );
    const move = wires.length > 0 && wires.length < use.wires.length ? movePin(facts, use, new Set(wires)) : null;
    return move ? [{ ...move, title: move.title.replace('it', called(last)) }] : [];
  },
});

/** One thing that a pin is there for: it watches that, or that follows it. */
interface Job {
  readonly view: PartView;
  readonly way: 'moves the pin' | 'is switched' | 'is dimmed';
}

function jobsOf(facts: Facts, use: PinUse): readonly Job[] {
  const moves = [...dividedLines(facts, use), ...moversOf(facts, use), ...relaysAt(facts, use)];
  const at = (kind: string, terminal: string): readonly PartView[] => facts.ofKind(kind).filter((v) => use.nets.has(netAt(facts, v, terminal)));
  return [
    ...moves.map((view): Job => ({ view, way: 'moves the pin' })),
    ...at('touch-display', 'bl').map((view): Job => ({ view, way: 'is dimmed' })),
    ...[...at('hold-latch', 'hold'), ...at('low-side-driver', 'in')].map((view): Job => ({ view, way: 'is switched' })),
  ];
}

/** Lines of the vehicle that go on and off and come to the pin over a divider. */
function dividedLines(facts: Facts, use: PinUse): readonly PartView[] {
  if (!pullsOn(facts, use.nets).some((p) => p.volt === 0)) return [];
  const ends = (net: number): boolean => railV(facts, net) !== null || grounded(facts, net);
  const through = (h: Hop): boolean => isResistor(h) || h.link.type === 'fuse' || h.link.type === 'conductor' || (h.link.type === 'diode' && !h.forward);
  const ways = waysFrom(facts, netAt(facts, use.computer, `${use.cell.pin}`), through, ends);
  const rails = [...ways.keys()].filter((net) => (railV(facts, net) ?? 0) >= facts.plan.vehicle.systemV);
  const feeds = rails.flatMap((net) => facts.sourcesFor(facts.netTerminals(net)[0] ?? ''));
  return [...new Set(feeds.filter((f) => f.source.kind === 'feed' && f.source.line !== '30').map((f) => f.view))];
}

/** Buttons of one name do the same job on purpose, and so may things that are switched together; all else gets in each other's way. */
function clash(jobs: readonly Job[]): boolean {
  const [first] = jobs;
  if (!first || jobs.length < 2) return false;
  if (jobs.every((j) => j.way === first.way && j.way !== 'moves the pin')) return false;
  return !jobs.every((j) => j.view.kind.kind === 'push-button' && j.view.part.name !== undefined && j.view.part.name === first.view.part.name);
}

/** Wires on the cell behind which this part lies and none of the others. */
function wiresTowards(facts: Facts, use: PinUse, mover: PartView, others: readonly PartView[]): Id[] {
  const behind = use.wires.map((w) => ({ id: w.id, parts: partsBehind(facts, use, w.id) }));
  return behind.filter((b) => b.parts.has(mover.part.id) && !others.some((o) => b.parts.has(o.part.id))).map((b) => b.id);
}

/** Parts that hang on one wire of a cell through wires and resistors, the computer left out. */
function partsBehind(facts: Facts, use: PinUse, wireId: Id): ReadonlySet<Id> {
  const computer = use.computer.part.id;
  const first = facts.plan.wires[wireId]!;
  const seen = new Set<Id>();
  const queue = [first.from.part === computer ? first.to : first.from];
  for (let q = 0; q < queue.length; q++) {
    const at = queue[q]!;
    if (at.part === computer) continue;
    const here = facts.parts.get(at.part);
    const passes = here?.kind.kind === 'resistor' || here?.kind.kind === 'splice';
    if (seen.has(at.part)) continue;
    seen.add(at.part);
    for (const w of Object.values(facts.plan.wires)) {
      for (const [near, far] of [
        [w.from, w.to],
        [w.to, w.from],
      ] as const) {
        if (near.part === at.part && (passes || near.terminal === at.terminal) && w.id !== wireId) queue.push(far);
      }
    }
  }
  return seen;
}
