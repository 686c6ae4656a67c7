import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import type { LoadFact } from '../../parts/types.ts';
import type { End, Wire } from '../../plan/types.ts';
import { called, defineRule, part, two, verdicts, volts, wire } from '../defineRule.ts';
import { thickenForDrop } from '../fixes.ts';
import { type Converter, converters } from '../rails.ts';
import { along } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, unknown, found } = verdicts('five-volt-drop', 'B2');
/** The window of a computer's 5 V leaves 0.39 V for everything; wires and contacts may have this much of it (common practice, no source). */
const MOST_V = 0.15;
/** Share of the allowance that wires may use when sizes are chosen; the rest is for contacts. */
const BUDGET_SHARE = 0.7;
const PASSES = ['fuse', 'contact', 'conductor'];
/** Thicker wire than this does not go under the screws of such parts, mm² (common practice, no source). */
const MOST_MM2 = 6;

export const fiveVoltDrop = defineRule({
  id: 'five-volt-drop',
  code: 'B2',
  level: 'fault',
  title: 'Too much voltage lost after the converter',
  why: 'At 5 V a tenth of a volt counts: the computer throttles and warns below 4.63 V. Let the 12 V travel and keep the 5 V short.',
  source: { text: 'Board maker’s supply chapter (read): 4.75 to 5.25 V; share for wires: common practice', grade: 'data sheet' },
  needs: 'solve',
  limits: [
    {
      key: 'fiveVoltDropV',
      title: 'Lost between converter and computer, the most',
      unit: 'V',
      value: MOST_V,
      least: 0.02,
      most: 0.5,
      basis: 'common practice; 5.00 V less 5 % leaves 0.25 V for everything',
    },
  ],
  check: (facts) =>
    fed(facts).map((f) => {
      const subject = part(f.view.part.id);
      if (f.homeless) return noWayBack(f);
      if (f.dropV === null) return unknown(subject, 'a plan that comes to rest at the lowest supply');
      const low = facts.analysis.arrivals.find((a) => a.part === f.view.part.id && a.plus === f.load.plus)?.worstLow ?? null;
      const computer = f.view.kind.kind === 'computer';
      const mostV = facts.threshold('fiveVoltDropV', MOST_V);
      // What is dead because its converter let go is not a matter of wires.
      const short = f.load.minV !== null && low !== null && low.v < f.load.minV && low.v > f.load.nominalV / 2;
      if (computer ? f.dropV <= mostV : !short) return fine(subject);
      const way = `between ${called(f.converter.view)} and ${called(f.view)}`;
      return found({
        level: 'fault',
        subject,
        related: [part(f.converter.view.part.id), ...f.over.map((v) => part(v.part.id)), ...f.wires.map((w) => wire(w.id))],
        what: computer
          ? `Out and back, ${two(f.dropV)} V is lost ${way} at full load; ${two(mostV)} V is the most.`
          : `${called(f.view)} gets ${volts(low!.v)} at worst and needs ${volts(f.load.minV!)}; ${two(f.dropV)} V is lost ${way}.`,
        todo: 'Shorten the 5 V wires (move the converter beside what it feeds), or make them thicker.',
        figures: [{ label: 'lost out and back', value: f.dropV, unit: 'V' }, ...(low ? [{ label: 'arrives at worst', value: low.v, unit: 'V' }] : [])],
        state: 'RUN_STOPPED',
        band: 'low',
      });
    }),
  repair: (finding, facts) => {
    const f = fed(facts).find((x) => x.view.part.id === finding.subject.id);
    const budgetV = facts.threshold('fiveVoltDropV', MOST_V) * BUDGET_SHARE;
    if (!f) return [];
    const arrivesV = finding.figures.find((x) => x.label === 'arrives at worst')?.value ?? Number.POSITIVE_INFINITY;
    // Where fuses and contacts lose it, or the converter sends too little, no wire is thick enough.
    const gainV = f.inWiresV - budgetV;
    const helps = f.view.kind.kind === 'computer' ? (f.dropV ?? 0) - gainV <= facts.threshold('fiveVoltDropV', MOST_V) : arrivesV + gainV >= (f.load.minV ?? 0);
    const repair = helps ? thickenForDrop(facts, f.wires, budgetV, MOST_MM2) : null;
    return repair ? [repair] : [];
  },
});

function noWayBack({ view, converter }: Fed): Verdict {
  return found({
    level: 'fault',
    subject: part(view.part.id),
    related: [part(converter.view.part.id)],
    what: `${called(view)} gets 5 V from ${called(converter.view)}, and nothing leads from its 0 V back to there: no current flows, or it looks for another way.`,
    todo: 'Join its 0 V to that of the converter.',
  });
}

interface Fed {
  readonly view: PartView;
  readonly load: LoadFact;
  readonly converter: Converter;
  readonly wires: readonly Wire[];
  /** Computers over whose pins it is fed: what they lack is missing here too. */
  readonly over: readonly PartView[];
  readonly dropV: number | null;
  /** Nothing leads from its 0 V to the converter's. */
  readonly homeless: boolean;
  /** What of it is lost in wires, V. */
  readonly inWiresV: number;
}

/** Every 5 V part that a converter feeds by wires of its own, with what is lost on the way. */
function fed(facts: Facts): Fed[] {
  const list: Fed[] = [];
  const reached = converters(facts).map((c) => ({ c, ways: facts.reach(c.outKey, [...PASSES, 'diode']) }));
  for (const { view, load } of facts.loads) {
    const plus = `${view.part.id}.${load.plus}`;
    const minus = `${view.part.id}.${load.minus}`;
    const from = load.nominalV < 6 ? reached.find((r) => r.c.view !== view && r.ways.has(plus)) : undefined;
    if (!from || (!facts.isWired(minus) && facts.joinedTo(minus).length === 0)) continue;
    const out = facts.designAcross(from.c.outKey, plus);
    const back = facts.designAcross(minus, `${from.c.view.part.id}.${from.c.source.returns}`);
    const home = facts.way(minus, `${from.c.view.part.id}.${from.c.source.returns}`, PASSES);
    const steps = [...from.ways.get(plus)!, ...(home ?? [])];
    const dropV = out === null || back === null ? null : out + back;
    list.push({
      view,
      load,
      converter: from.c,
      dropV,
      homeless: home === null && comesAlive(facts, from.c),
      wires: withParallel(facts, steps),
      over: [...new Set(steps.map((s) => facts.at(s.at)?.view))].filter((v): v is PartView => v !== undefined && v !== view && v.kind.kind === 'computer'),
      inWiresV: along(facts, steps).wires.reduce((sum, w) => sum + Math.abs(facts.designAcross(endOf(w.from), endOf(w.to)) ?? 0), 0),
    });
  }
  return list;
}

/** Does a converter give anything in any key position? */
function comesAlive(facts: Facts, c: Converter): boolean {
  const back = `${c.view.part.id}.${c.source.returns}`;
  return facts.solved.some((r) => (facts.across(c.outKey, back, r.state, r.band) ?? 0) > c.source.nominalV / 2);
}

/** Our wires along a way, and those that lie beside them between the same two parts. */
function withParallel(facts: Facts, steps: readonly Step[]): Wire[] {
  const pair = (w: Wire): string => [w.from.part, w.to.part].sort().join();
  const mine = along(facts, steps).wires;
  const beside = mine.flatMap((w) => facts.netWires(facts.netOf(endOf(w.from))).filter((x) => x.owner === 'build' && pair(x) === pair(w)));
  return [...new Set([...mine, ...beside].map((w) => facts.plan.wires[w.id]!))];
}

function endOf(e: End): string {
  return `${e.part}.${e.terminal}`;
}
