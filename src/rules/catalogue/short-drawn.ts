import type { Facts, PartView, Step, TerminalKey } from '../../analysis/factsTypes.ts';
import type { SourceFact } from '../../parts/types.ts';
import type { Wire } from '../../plan/types.ts';
import { called, defineRule, part, verdicts, volts, wire, wireName } from '../defineRule.ts';
import { removeWire } from '../fixes.ts';
import { closableReach } from '../rails.ts';
import { along } from '../taps.ts';
import type { Finding, Subject, Verdict } from '../types.ts';

const { fine, found } = verdicts('short-drawn', 'B15');
/** Sources nearer together than this are one rail, V. */
const SAME_V = 0.5;
/** What a short circuit passes unhindered. */
const SHORTS = ['fuse', 'contact', 'conductor'];
const STIFF: ReadonlySet<SourceFact['kind']> = new Set<SourceFact['kind']>(['battery', 'feed', 'converter', 'rail', 'usb']);
const ROLE_V: Readonly<Record<string, number | undefined>> = { ground: 0, rail3: 3.3, rail5: 5 };

export const shortDrawn = defineRule({
  id: 'short-drawn',
  code: 'B15',
  level: 'hazard',
  title: 'A short circuit is drawn in the plan',
  why: 'Two points that must never be one are joined: everything the source can give flows there. Until this is mended no other figure of the plan means anything.',
  source: { text: 'Ohm’s law', grade: 'standard' },
  needs: 'graph',
  always: true,
  explains: [
    'tap-without-fuse',
    'fuse-far-from-tap',
    'wire-fuse-too-big',
    'fuse-too-small',
    'short-would-not-blow',
    'two-supplies-tied',
    'reversed-supply',
    'feed-drop',
    'five-volt-drop',
    'wire-overloaded',
    'converter-starves',
    'converter-overloaded',
    'five-volt-window',
    'part-backwards',
    'two-five-volt-sources',
  ],
  check: (facts) => {
    const all = stiffSources(facts);
    const byKey = new Map(all.map((s) => [s.key, s]));
    const seen = new Set<string>();
    return all.flatMap((s): Verdict[] => {
      const shorts = shortsOf(facts, s, byKey);
      if (shorts.length === 0) return [fine(part(s.view.part.id))];
      return shorts.flatMap((f) => {
        if (seen.has(f.subject.id)) return [];
        seen.add(f.subject.id);
        return [found(f)];
      });
    });
  },
  repair: (finding: Finding, facts) => {
    if (finding.subject.kind !== 'wire') return [];
    const w = facts.plan.wires[finding.subject.id];
    return w ? [removeWire(w.id, `Take ${wireName(facts, w.id)} away`)] : [];
  },
});

interface Stiff {
  readonly view: PartView;
  readonly source: SourceFact;
  readonly key: TerminalKey;
  readonly volt: number;
}

/** Sources of a fixed voltage that one of our wires is joined to. */
function stiffSources(facts: Facts): Stiff[] {
  return [...facts.parts.values()].flatMap((view) =>
    (view.facts.sources ?? [])
      .filter((s) => STIFF.has(s.kind))
      .map((source) => ({
        view,
        source,
        key: `${view.part.id}.${source.terminal}`,
        volt: (source.kind === 'battery' || source.kind === 'feed') && !source.half ? facts.plan.vehicle.systemV : source.nominalV,
      }))
      .filter((s) => facts.netWires(facts.netOf(s.key)).some((w) => w.owner === 'build')),
  );
}

type Short = Parameters<typeof found>[0];

/** What a source is shorted to: ground once, and every other source of other volts. */
function shortsOf(facts: Facts, s: Stiff, others: ReadonlyMap<TerminalKey, Stiff>): Short[] {
  const list: Short[] = [];
  let grounded = false;
  const reached = closableReach(facts, s.key, SHORTS);
  for (const key of reached.keys()) {
    const other = others.get(key);
    const ground = facts.isGround(facts.netOf(key));
    if (ground && !grounded && identityV(facts, key) === 0 && leadsHome(facts, facts.netOf(key))) {
      grounded = true;
      list.push(shortOf(facts, s, reached.get(key)!, 0, 'ground'));
    } else if (!ground && other && other.volt < s.volt - SAME_V)
      list.push(shortOf(facts, s, reached.get(key)!, other.volt, `${called(other.view)} (${volts(other.volt)})`, other.view));
  }
  return list;
}

/** Does ground stand here, or only a minus that is wired to nothing else? Where a part is in backwards, nothing is shorted. */
function leadsHome(facts: Facts, net: number): boolean {
  return facts.netTerminals(net).some((key) => {
    const at = facts.at(key);
    return !at || at.view.kind.kind === 'chassis-ground' || (at.view.facts.sources ?? []).some((s) => s.returns === at.terminal.id);
  });
}

function shortOf(facts: Facts, s: Stiff, steps: readonly Step[], volt: number, what: string, other?: PartView): Short {
  const culprit = joiningWire(facts, s.volt, steps);
  const wires = along(facts, steps).wires.filter((w) => w !== culprit);
  const subject: Subject = culprit ? wire(culprit.id) : part(s.view.part.id);
  const contact = steps.find((x) => x.linkType === 'contact')?.through;
  const ids = new Set([s.view.part.id, ...(other ? [other.part.id] : []), ...steps.flatMap((x) => (x.through ? [x.through.part.id] : []))]);
  return {
    level: 'hazard',
    subject,
    related: [...[...ids].filter((id) => id !== subject.id).map(part), ...wires.map((w) => wire(w.id))],
    what: `${culprit ? `${wireName(facts, culprit.id)} joins` : 'The plan joins'} ${called(s.view)} (${volts(s.volt)}) to ${what}${contact ? ` as soon as ${called(contact)} closes` : ''}: a short circuit.`,
    todo: 'Take the joining wire away, or lead it where it belongs.',
    figures: [{ label: 'volts shorted', value: s.volt - volt, unit: 'V' }],
    ...(contact ? {} : { floods: true as const }),
  };
}

/** The wire at which the rail changes its name: the last one before the terminal that belongs to other volts. */
function joiningWire(facts: Facts, startV: number, steps: readonly Step[]): Wire | undefined {
  let since = 0;
  for (let i = 0; i < steps.length; i++) {
    const v = identityV(facts, steps[i]!.at);
    if (v === null) continue;
    if (Math.abs(v - startV) > SAME_V) return [...steps.slice(since, i + 1)].reverse().find((x) => x.wire?.owner === 'build')?.wire ?? undefined;
    since = i + 1;
  }
  return [...steps].reverse().find((x) => x.wire?.owner === 'build')?.wire ?? undefined;
}

/** Volts that a terminal is made for, or null when it may be anything. */
function identityV(facts: Facts, key: TerminalKey): number | null {
  const hit = facts.at(key);
  if (!hit) return 0;
  if (key.endsWith('~0')) return 0;
  if (hit.terminal.role === 'supply') return facts.plan.vehicle.systemV;
  return ROLE_V[hit.terminal.role] ?? null;
}
