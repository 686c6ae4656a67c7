import type { Facts } from '../../analysis/factsTypes.ts';
import { splitKey } from '../../analysis/roles.ts';
import { gather } from '../../plan/gather.ts';
import { listed } from '../../plan/listed.ts';
import type { Id, Wire } from '../../plan/types.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { called, defineRule, part, two, verdicts, wire, wireName } from '../defineRule.ts';
import { groundJoins, type Join, rooter } from '../groundJoins.ts';

const { fine, found } = verdicts('audio-ground-ring', 'H1');
/** Line level of a quiet passage and what one aims to keep below it, V (fitters' habit: −60 dB). */
const CLEAN_V = 0.3e-3;

export const audioGroundRing = defineRule({
  id: 'audio-ground-ring',
  code: 'H1',
  level: 'fault',
  title: 'Sound lead closes a ground ring',
  why: 'Computer and radio are joined over the body already. The screen of the sound lead joins them a second time, so a part of every ground current flows through it, and the radio plays it: a whine that follows the engine.',
  source: { text: 'Universal practice; an isolator or one common ground point opens the ring', grade: "fitters' habit" },
  needs: 'graph',
  disputed:
    'Two schools: mend the grounds until all meet in one place, for a transformer costs bass below some 40 Hz when it is small; or put an isolator into the lead and leave grounds as they are, for in a finished vehicle a ring is hard to open. Here either counts as mended; the isolator is offered because it can be drawn and fitted without moving a ground.',
  check: (facts) =>
    screens(facts).map((group) => {
      const first = group.wires[0]!;
      const subject = wire(first.id);
      if (!group.ring) return fine(subject);
      const volt = hummingV(facts, group);
      return found({
        level: 'fault',
        subject,
        related: [...group.wires.slice(1).map((w) => wire(w.id)), ...group.parts.map(part)],
        what: `The screen of ${wireName(facts, first.id)} joins ${listed(group.parts.map((id) => called(facts.parts.get(id)!)))}, which are joined over ground already: a ring that nothing opens${volt === null || volt < CLEAN_V ? '' : `. With the engine running ${two(volt * 1e3)} mV of ground drop lies along it; above ${CLEAN_V * 1e3} mV it is heard`}.`,
        todo: 'Put an audio isolator into the lead, or bring both grounds to one point at the radio.',
        figures: volt === null ? [] : [{ label: 'ground drop along the screen', value: volt, unit: 'V' }],
        state: 'RUN_CHARGING',
        band: 'low',
      });
    }),
  repair: (finding, facts) => {
    const group = screens(facts).find((g) => g.wires[0]!.id === finding.subject.id);
    const cut = group && [...group.wires].sort((a, b) => facts.wireLengthM(b.id) - facts.wireLengthM(a.id))[0];
    if (!group?.ring || !cut) return [];
    const from = facts.parts.get(cut.from.part)!;
    const sourceFirst = !towardsRadio(facts, cut.from.part, cut);
    return [
      {
        title: 'Put an audio isolator into the lead',
        safe: true,
        edit: (plan) => {
          const isolator = { kind: 'audio-isolator', zone: from.part.zone, x: from.part.x + 160, y: from.part.y };
          const [a, b] = sourceFirst ? (['a', 'b'] as const) : (['b', 'a'] as const);
          return splitWire(plan, cut.id, isolator, a, b).edit;
        },
      },
    ];
  },
});

interface ScreenGroup {
  /** Wires whose screen belongs to one piece of sound lead. */
  readonly wires: readonly Wire[];
  /** What the two ends of that piece hang on. */
  readonly parts: readonly Id[];
  readonly ring: boolean;
}

/** Pieces of screened sound lead, each with whether ground closes a ring around it. */
function screens(facts: Facts): ScreenGroup[] {
  const joins = groundJoins(facts);
  const audio = joins.all.filter((j) => j.audio);
  if (audio.length === 0) return [];
  const rest = rooter(joins, (j) => !j.audio);
  const sound = rooter(joins, (j) => j.audio);
  const groups = new Map<number, Join[]>();
  for (const j of audio) gather(groups, sound(j.a), j);
  return [...groups.values()].flatMap((group) => {
    const wires = group.flatMap((j) => j.wire ?? []);
    if (wires.length === 0) return [];
    const nodes = [...new Set(group.flatMap((j) => [j.a, j.b]))];
    const roots = nodes.map((n) => rest(n));
    const outer = nodes.map((n) => joins.nodes[n]!).filter((n) => !isLead(facts, n));
    return [{ wires, parts: [...new Set(outer.map((n) => splitKey(n)[0]))], ring: new Set(roots).size < roots.length }];
  });
}

function isLead(facts: Facts, node: string): boolean {
  return facts.parts.get(splitKey(node)[0])?.kind.kind === 'audio-lead';
}

/** Is this side of a sound wire the radio's? */
function towardsRadio(facts: Facts, id: Id, from: Wire): boolean {
  const seen = new Set<Id>();
  const queue = [id];
  for (let q = 0; q < queue.length; q++) {
    const here = queue[q]!;
    if (seen.has(here)) continue;
    seen.add(here);
    const kind = facts.parts.get(here)?.kind.kind;
    if (kind === 'radio-aux') return true;
    if (kind !== 'audio-lead') continue;
    for (const w of Object.values(facts.plan.wires)) {
      if (w.id !== from.id && (w.from.part === here || w.to.part === here)) queue.push(w.from.part === here ? w.to.part : w.from.part);
    }
  }
  return false;
}

/** Ground drop between the two ends of the piece at full load, V; null when it was not solved. */
function hummingV(facts: Facts, group: ScreenGroup): number | null {
  const first = group.wires[0]!;
  const ends = group.wires.flatMap((w) => [`${w.from.part}.${w.from.terminal}~0`, `${w.to.part}.${w.to.terminal}~0`]).filter((k) => !isLead(facts, k));
  const [a, b] = ends.length === 2 ? ends : [`${first.from.part}.${first.from.terminal}~0`, `${first.to.part}.${first.to.terminal}~0`];
  const volt = facts.across(a!, b!, 'RUN_CHARGING', 'low');
  return volt === null ? null : Math.abs(volt);
}
