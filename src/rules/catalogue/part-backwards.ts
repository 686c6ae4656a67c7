import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { turnRound } from '../fixes.ts';
import { taps } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('part-backwards', 'C8');
/** Less than this is a shift of ground or the leakage of a dead part, V. */
const CLEARLY_V = 0.5;
/** Coils with a diode are another rule's: what goes wrong there depends on the relay. */
const JUDGED_ELSEWHERE = new Set(['relay', 'reverse-guard']);

export const partBackwards = defineRule({
  id: 'part-backwards',
  code: 'C8',
  level: 'hazard',
  title: 'A part is in backwards',
  why: 'Electrolytics heat and burst when reversed, clamps and diodes conduct at once, and modules without a guard are destroyed.',
  source: { text: 'Data sheets of polarised parts', grade: 'data sheet' },
  needs: 'readings',
  always: true,
  explains: ['five-volt-window'],
  check: (facts) => [...facts.parts.values()].flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (view && againstTheSupply(facts, view)) return [turnRound(view, ...IN_LINE[view.kind.kind]!, `Turn ${view.item} round`)];
    const pair = view && backwards(facts, view);
    if (!view || !pair) return [];
    const forms = view.terminals.filter((t) => t.id === pair.plus || t.id === pair.minus).map((t) => t.form);
    if (forms.some((f) => f === 'header' || f === 'usb')) return [];
    return [turnRound(view, pair.plus, pair.minus, `Turn ${view.item} round`)];
  },
});

interface Pair {
  readonly plus: string;
  readonly minus: string;
  readonly what: string;
  readonly standsV: number;
}

function pairsOf(view: PartView): Pair[] {
  if (JUDGED_ELSEWHERE.has(view.kind.kind)) return [];
  return (view.facts.polar ?? []).map((p) => ({ plus: p.plus, minus: p.minus, what: p.what, standsV: p.reverseV ?? 0 }));
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const shorting = diodeAcross(facts, view);
  if (shorting !== null) return [shorting ? conducting(facts, view) : fine(part(view.part.id))];
  if (againstTheSupply(facts, view)) return [turned(view)];
  const wired = pairsOf(view).filter((p) => facts.isWired(`${view.part.id}.${p.plus}`) && facts.isWired(`${view.part.id}.${p.minus}`));
  if (wired.length === 0) return [];
  const bad = backwards(facts, view);
  if (!bad) return [fine(part(view.part.id))];
  const level = bad.reversedV > bad.standsV ? 'hazard' : 'fault';
  return [
    found({
      level,
      subject: part(view.part.id),
      what: `${called(view)} is in backwards: its ${labelOf(view, bad.minus)} lies ${volts(bad.reversedV)} above its ${labelOf(view, bad.plus)}${level === 'fault' ? '; it stands that, but it does not work this way round' : ''}.`,
      todo: view.terminals.length > 2 ? `Swap the wires at its ${labelOf(view, bad.plus)} and its ${labelOf(view, bad.minus)}.` : 'Swap its two wires.',
      figures: [{ label: 'reversed by', value: bad.reversedV, unit: 'V' }],
      ...(view.kind.kind === 'surge-clamp' ? { floods: true as const } : {}),
    }),
  ];
}

function labelOf(view: PartView, terminal: string): string {
  const at = view.terminals.find((t) => t.id === terminal);
  return at?.form === 'header' ? `pin ${terminal}` : at?.label || terminal;
}

/** The pair of a part that lies the wrong way round, by the names of its nets or by what was solved. */
function backwards(facts: Facts, view: PartView): (Pair & { readonly reversedV: number }) | null {
  let worst: (Pair & { readonly reversedV: number }) | null = null;
  for (const p of [...pairsOf(view), ...diodePair(facts, view)]) {
    const reversedV = reversedBy(facts, `${view.part.id}.${p.plus}`, `${view.part.id}.${p.minus}`);
    if (reversedV > Math.max(CLEARLY_V, worst?.reversedV ?? 0)) worst = { ...p, reversedV };
  }
  return worst;
}

function reversedBy(facts: Facts, plus: string, minus: string): number {
  if (!facts.isWired(plus) || !facts.isWired(minus)) return 0;
  const high = facts.nominalV(facts.netOf(minus)) ?? 0;
  const low = facts.nominalV(facts.netOf(plus));
  const named = low !== null && facts.sourcesFor(minus).length > 0 && !facts.isGround(facts.netOf(minus)) ? high - low : 0;
  const solved = facts.solved.map((r) => -(facts.across(plus, minus, r.state, r.band) ?? 0));
  return Math.max(0, named, ...solved);
}

/** Is a diode a bare bridge between a live rail and ground, and the wrong way round? Null when it is no such bridge. */
function diodeAcross(facts: Facts, view: PartView): boolean | null {
  if (view.kind.kind !== 'diode') return null;
  const [a, k] = ['A', 'K'].map((t) => facts.netOf(`${view.part.id}.${t}`)) as [number, number];
  const live = (net: number): boolean => !facts.isGround(net) && (facts.nominalV(net) ?? 0) > 0;
  if (facts.isGround(k) && live(a)) return true;
  return facts.isGround(a) && live(k) ? false : null;
}

/** Which way current is to pass what stands in a supply line: from the first terminal to the second. */
const IN_LINE: Readonly<Record<string, readonly [string, string]>> = { diode: ['A', 'K'], 'reverse-guard': ['in', 'out'] };
const ONWARD = ['fuse', 'contact', 'conductor'];

/** Does a diode or a guard stand in a supply line the wrong way round: the supply at its far end, and at the near one what it is to feed? */
function againstTheSupply(facts: Facts, view: PartView): boolean {
  const ends = IN_LINE[view.kind.kind];
  if (!ends) return false;
  const [near, far] = ends.map((t) => `${view.part.id}.${t}`) as [string, string];
  if (facts.isGround(facts.netOf(near)) || facts.isGround(facts.netOf(far))) return false;
  const fed = facts.reach(near, ONWARD, (v) => v === view);
  if (!facts.loads.some((l) => fed.has(`${l.view.part.id}.${l.load.plus}`))) return false;
  const ways = taps(facts).map((tap) => facts.reach(tap.key, [...ONWARD, 'diode'], (v) => v === view));
  return ways.some((way) => way.has(far)) && !ways.some((way) => way.has(near));
}

function turned(view: PartView): Verdict {
  const diode = view.kind.kind === 'diode';
  return found({
    level: 'fault',
    subject: part(view.part.id),
    what: diode
      ? `${called(view)} is in backwards: its ring (cathode) lies towards the supply, and nothing passes.`
      : `${called(view)} is in backwards: its out lies towards the supply, so it stops nothing, or everything.`,
    todo: diode ? 'Swap its two wires, so that its ring lies towards what it feeds.' : 'Swap the wires at its in and its out.',
  });
}

function diodePair(facts: Facts, view: PartView): Pair[] {
  return diodeAcross(facts, view) ? [{ plus: 'K', minus: 'A', what: 'diode', standsV: 0 }] : [];
}

function conducting(facts: Facts, view: PartView): Verdict {
  const volt = facts.nominalV(facts.netOf(`${view.part.id}.A`)) ?? 0;
  return found({
    level: 'hazard',
    subject: part(view.part.id),
    what: `${called(view)} leads straight from ${volts(volt)} to ground: it conducts at once, as a short circuit.`,
    todo: 'Swap its two wires, so that its ring lies towards plus.',
    figures: [{ label: 'reversed by', value: volt, unit: 'V' }],
    floods: true,
  });
}
