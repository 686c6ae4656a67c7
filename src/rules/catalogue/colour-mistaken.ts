import type { Facts } from '../../analysis/factsTypes.ts';
import { PAIRED_FORMS } from '../../parts/types.ts';
import { gather } from '../../plan/gather.ts';
import type { Wire } from '../../plan/types.ts';
import { setWire } from '../../plan/wireEdits.ts';
import { COLOURS, colourText } from '../../trade/colours.ts';
import type { FindingParts } from '../defineRule.ts';
import { defineRule, verdicts, wire, wireName } from '../defineRule.ts';
import { netOfNode } from '../trace.ts';
import { type EndedWire, endedWires } from '../wireEnds.ts';

const { fine, found } = verdicts('colour-mistaken', 'B10');
const GROUND_COLOURS: ReadonlySet<string> = new Set(['BK', 'BN']);
/** Nets that differ only by one of these carry one thing on, and may look alike. */
const SERIES: ReadonlySet<string> = new Set(['join', 'fuse', 'contact', 'diode', 'conductor']);

export const colourMistaken = defineRule({
  id: 'colour-mistaken',
  code: 'B10',
  level: 'hazard',
  title: 'Wire colour that can be mistaken',
  why: 'The next person at this wiring, perhaps you in three years, goes by colour first. Orange means high voltage, yellow the wiring of airbags, black and brown ground. A wire that says something else is cut, or probed, or trusted.',
  source: {
    text: 'Restraint wiring yellow: workshop manuals (read); orange for high voltage: from memory; black and brown for ground: common practice',
    grade: "fitters' habit",
  },
  needs: 'graph',
  check: (facts) => {
    const ours = endedWires(facts).flatMap((w) => (w.wire.owner === 'build' && w.wire.colour !== undefined && !isCable(w) ? w.wire : []));
    const alike = lookAlikes(facts, ours);
    return ours.map((w) => {
      const slip = reserved(facts, w) ?? ground(facts, w) ?? alike.get(w.id);
      return slip ? found({ ...slip, subject: wire(w.id) }) : fine(wire(w.id));
    });
  },
  repair: (finding, facts) => {
    const w = facts.plan.wires[finding.subject.id];
    if (!w) return [];
    return [{ title: 'Let its colour be chosen', safe: true, edit: (plan) => setWire(plan, w.id, { colour: undefined, stripe: undefined }) }];
  },
});

type Slip = Omit<FindingParts, 'subject'>;

/** A ready-made cable has its sheath's colour. */
function isCable({ from, to }: EndedWire): boolean {
  return (from !== null && PAIRED_FORMS.has(from.terminal.form)) || (to !== null && PAIRED_FORMS.has(to.terminal.form));
}

function look(w: Wire): string {
  return colourText(w.colour!, w.stripe).words;
}

function reserved(facts: Facts, w: Wire): Slip | null {
  if (w.colour === 'OG' && facts.plan.vehicle.electrified) {
    return {
      level: 'hazard',
      what: `${wireName(facts, w.id)} is orange in a vehicle that drives electrically, where orange means high voltage.`,
      todo: 'Take another colour, and no orange sleeve either.',
    };
  }
  // Where restraint looms lie is in no drawing, and the permanent lead of many radio plugs is yellow as well: no hazard by itself.
  if (w.colour === 'YE' && w.stripe === undefined) {
    return {
      level: 'advice',
      what: `${wireName(facts, w.id)} is all yellow, as the wiring of airbags and belts is.`,
      todo: 'Take another colour or a striped wire, and keep yellow sleeves off the loom.',
    };
  }
  return null;
}

const netOf = (facts: Facts, { from }: Wire): number => facts.netAt(from.part, from.terminal);

/** Black and brown are for ground, and ground is for black and brown. Where the body is positive they mean nothing. */
function ground(facts: Facts, w: Wire): Slip | null {
  if (facts.plan.vehicle.polarity === 'positive-ground') return null;
  const net = netOf(facts, w);
  const looks = GROUND_COLOURS.has(w.colour!);
  const volt = facts.nominalV(net);
  if (looks && volt !== null && volt > 0) {
    return {
      level: 'fault',
      what: `${wireName(facts, w.id)} is ${look(w)}, which reads as ground, and carries ${volt} V.`,
      todo: 'Take a colour that is not for ground.',
    };
  }
  if (!looks && facts.isGround(net)) {
    return {
      level: 'advice',
      what: `${wireName(facts, w.id)} is a ground wire and is ${look(w)}.`,
      todo: `Take ${COLOURS.BK.name} or ${COLOURS.BN.name}.`,
    };
  }
  return null;
}

/** Wires that cannot be told apart in a zone, though they carry different things. */
function lookAlikes(facts: Facts, ours: readonly Wire[]): ReadonlyMap<string, Slip> {
  const line = lines(facts);
  const groups = new Map<string, Wire[]>();
  for (const w of ours) {
    if (facts.isGround(netOf(facts, w))) continue;
    const seen = `${w.colour}|${w.stripe ?? ''}|${w.areaMm2}`;
    const [one, two] = [facts.plan.parts[w.from.part]?.zone, facts.plan.parts[w.to.part]?.zone];
    gather(groups, `${seen}|${one}`, w);
    if (two !== one) gather(groups, `${seen}|${two}`, w);
  }
  const slips = new Map<string, Slip>();
  for (const group of groups.values()) {
    const first = group[0]!;
    const own = line(first);
    const other = group.find((w) => line(w) !== own);
    if (!other || slips.has(other.id) || sameVolts(facts, first, other)) continue;
    slips.set(other.id, {
      level: 'advice',
      related: [wire(first.id)],
      what: `${wireName(facts, other.id)} and ${wireName(facts, first.id)} are both ${look(other)} with ${other.areaMm2} mm² in one place, and carry different things.`,
      todo: 'Give one of them another colour or a stripe, and tag both.',
    });
  }
  return slips;
}

/** Two supplies of one voltage may be alike: the stripe, where there is one, tells what switches them. */
function sameVolts(facts: Facts, a: Wire, b: Wire): boolean {
  const [x, y] = [a, b].map((w) => facts.nominalV(netOf(facts, w)));
  return x !== null && x !== undefined && x > 0 && x === y;
}

/** Number of the line that a wire belongs to: nets in series are one line. */
function lines(facts: Facts): (w: Wire) => number {
  const parent = new Map<number, number>();
  const root = (net: number): number => {
    let at = net;
    for (let up = parent.get(at); up !== undefined && up !== at; up = parent.get(at)) at = up;
    // The next search goes straight there.
    for (let on = net; on !== at; ) {
      const up = parent.get(on)!;
      parent.set(on, at);
      on = up;
    }
    return at;
  };
  for (const view of facts.parts.values()) {
    for (const l of view.facts.links ?? []) {
      if (!SERIES.has(l.type)) continue;
      const [a, b] = [netOfNode(facts, view, l.a), netOfNode(facts, view, l.b)];
      if (a === -1 || b === -1 || facts.isGround(a) || facts.isGround(b)) continue;
      parent.set(root(a), root(b));
    }
  }
  return (w) => root(netOf(facts, w));
}
