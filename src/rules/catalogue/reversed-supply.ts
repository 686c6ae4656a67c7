import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { partSets, setPartSettings } from '../../parts/index.ts';
import { wiresOn } from '../../plan/connect.ts';
import { addParts, addWire, setSettings, setWire, splitWire } from '../../plan/edits.ts';
import { listed } from '../../plan/listed.ts';
import type { Edit, End, Plan, Values, Wire } from '../../plan/types.ts';
import { ampsApart, called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { inTurn, typing } from '../fixes.ts';
import { diodeFacts, type Exposure, guardBeside, reversedReach, reversedV, type SeriesGuard, seriesGuards } from '../guards.ts';
import { cornersOf, dumpV } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('reversed-supply', 'A10');
/** Reverse ratings that guards are made with, V (makers' ranges, from memory). */
const RATINGS_V = [60, 100, 200];
/** Steady current up to which a series diode is offered; above it its drop costs too much (common practice, no source). */
const DIODE_MOST_A = 2.5;
/** Which part speaks for all that one reversed rail would harm. */
const SPEAKS_FIRST = ['step-down', 'linear-regulator', 'capacitor', 'surge-clamp'];
/** What only stands across the supply. */
const SHUNTS = ['capacitor', 'surge-clamp'];

export const reversedSupply = defineRule({
  id: 'reversed-supply',
  code: 'A10',
  level: 'hazard',
  title: 'No guard against a reversed supply',
  why: 'Jump leads get swapped, and every coil that is switched off kicks the supply below zero for a moment. Electrolytics burst, clamps and converters conduct the wrong way. A guard ahead lets current in one way only.',
  source: { text: 'ISO 16750-2 reversed voltage, ISO 7637-2 pulse 1 (from memory); guard ratings: a semiconductor maker’s note (read)', grade: 'standard' },
  needs: 'readings',
  check: (facts) => {
    const { minding, exposures } = reversedReach(facts);
    const bare = new Set(exposures.flatMap((e) => e.parts.map((p) => p.view)));
    const guards = seriesGuards(facts);
    const verdict: Verdict[] = [...exposures.map((e) => judge(facts, e)), ...guards.map((g) => judgeGuard(facts, g))];
    return [...verdict, ...minding.filter((v) => !bare.has(v)).map((v) => fine(part(v.part.id)))];
  },
  repair: (finding, facts) => {
    const guard = seriesGuards(facts).find((g) => g.view.part.id === finding.subject.id);
    if (guard) return guardRepairs(facts, guard);
    const exposure = reversedReach(facts).exposures.find((e) => speaker(e).part.id === finding.subject.id);
    if (!exposure) return [];
    return guardBeside(facts, exposure) ? joined(facts, exposure) : [...withClamp(facts, exposure), ...alone(facts, exposure)];
  },
});

function speaker(e: Exposure): PartView {
  const rank = (v: PartView): number => (SPEAKS_FIRST.indexOf(v.kind.kind) + 9) % 9;
  return [...e.parts].sort((a, b) => rank(a.view) - rank(b.view))[0]!.view;
}

function judge(facts: Facts, e: Exposure): Verdict {
  const first = speaker(e);
  const reversed = reversedV(facts, e.way);
  const others = e.parts.map((p) => p.view).filter((v) => v !== first);
  const bursts = e.fuse === null && e.parts.some((p) => SHUNTS.includes(p.view.kind.kind));
  const names = listed([first, ...others].map(called), 3);
  return found({
    level: bursts ? 'hazard' : 'fault',
    subject: part(first.part.id),
    related: others.map((v) => part(v.part.id)),
    what: `With the battery connected backwards, −${volts(reversed)} would reach ${names}${e.fuse ? ` behind ${called(e.fuse)}` : ' with no fuse ahead'}: nothing on the way stops it.`,
    todo: 'Put a reverse guard or a series diode behind the fuse, ahead of everything that minds its polarity.',
    figures: [{ label: 'reversed supply', value: reversed, unit: 'V' }],
  });
}

function judgeGuard(facts: Facts, g: SeriesGuard): Verdict {
  const subject = part(g.view.part.id);
  const { carriesA, madeForA } = loadingOf(facts, g.view);
  if (carriesA > madeForA) {
    const [carries, made] = ampsApart(carriesA, madeForA);
    return found({
      level: 'fault',
      subject,
      what: `${called(g.view)} is made for ${made} and carries ${carries} for long: it burns out, most often as a short, and then nothing guards.`,
      todo: 'Fit a guard made for about twice the current that it carries.',
      figures: [
        { label: 'carries', value: carriesA, unit: 'A' },
        { label: 'made for', value: madeForA, unit: 'A' },
      ],
    });
  }
  const gateOpen = g.view.kind.kind === 'reverse-guard' && g.view.s.str('type') === 'p-channel' && !g.view.s.flag('clamped');
  if (g.strong && !gateOpen) return fine(subject);
  const spike = -cornersOf(facts).pulse1V;
  return found({
    level: 'fault',
    subject,
    related: g.clamp ? [part(g.clamp.part.id)] : [],
    what: g.strong
      ? `${called(g.view)} has no gate clamp: a supply above 20 V, as in a jump start, destroys it, and then nothing guards.`
      : g.clamp
        ? `${called(g.view)} stands −${volts(g.reverseV)}, but ${called(g.clamp)} ahead lets negative spikes reach ${volts(g.leftV)} across it with the charge behind it.`
        : `${called(g.view)} stands −${volts(g.reverseV)}, but negative spikes of −${volts(spike)} reach it with no both-ways clamp ahead; it would fail as a short and nobody would notice.`,
    todo: g.strong ? 'Fit one with a gate clamp.' : 'Fit a guard with a higher reverse rating, or a both-ways clamp behind the fuse and ahead of it.',
    figures: [
      { label: 'guard stands', value: g.reverseV, unit: 'V' },
      { label: 'reverse volts across it', value: g.leftV, unit: 'V' },
    ],
  });
}

/** What a guard carries for long at the lowest supply, and what it is made for, A. */
function loadingOf(facts: Facts, view: PartView): { readonly carriesA: number; readonly madeForA: number } {
  const diode = view.kind.kind === 'diode';
  // At the side where less hangs on the terminal beside it.
  const sides = (diode ? ['A', 'K'] : ['in', 'out']).map((t) =>
    facts
      .netWires(facts.netOf(`${view.part.id}.${t}`))
      .filter((w) => endsOn(w, view.part.id, t))
      .reduce((sum, w) => sum + (facts.analysis.wires[w.id]?.heatA ?? 0), 0),
  );
  return { carriesA: Math.min(...sides), madeForA: diode ? diodeFacts(view).averageA : view.s.num('ratedA') };
}

/** Ratings that guards are made for, A (makers' ranges, from memory). */
const GUARDS_A = [3, 5, 10, 15, 20];

function guardRepairs(facts: Facts, g: SeriesGuard): Repair[] {
  const { carriesA, madeForA } = loadingOf(facts, g.view);
  if (carriesA > madeForA) {
    const ratedA = GUARDS_A.find((a) => a >= 2 * carriesA);
    return g.view.kind.kind === 'diode' || ratedA === undefined ? [] : [typing(g.view.part.id, { ratedA }, `Fit one for ${ratedA} A`, true)];
  }
  if (g.view.kind.kind === 'diode') {
    const amp = Math.abs(facts.designElementA(g.view.part.id, 'd') ?? 0);
    return facts.plan.vehicle.systemV === 12 && amp <= 0.5 ? [typing(g.view.part.id, { type: '1n4007' }, 'Fit a 1N4007 (1000 V)', true)] : [];
  }
  if (g.strong) return [typing(g.view.part.id, { clamped: true }, 'Fit one with a gate clamp', true)];
  const rating = RATINGS_V.find((v) => (g.clamp !== null && v >= g.leftV) || (facts.plan.vehicle.systemV === 12 && v === 200));
  return rating === undefined ? [] : [typing(g.view.part.id, { reverseV: rating, clamped: true }, `Fit a ${rating} V guard`, true)];
}

/** Moves what stands across the supply behind the guard that is there already. */
function joined(facts: Facts, e: Exposure): Repair[] {
  const guard = guardBeside(facts, e);
  const leads = e.parts.map((p) => {
    const plus = terminalOf(p.steps.at(-1)!.at);
    const mine = facts.netWires(facts.netAt(plus.part, plus.terminal)).filter((w) => w.owner === 'build' && endsOn(w, plus.part, plus.terminal));
    return mine.length === 1 ? { wire: mine[0]!, part: plus.part } : null;
  });
  if (!guard || leads.some((l) => l === null)) return [];
  const behind = terminalOf(guard.out);
  const title = `Join ${e.parts.length === 1 ? 'it' : 'them'} behind ${called(guard.view)}`;
  const moves = leads.map((l) => (plan: Plan) => setWire(plan, l!.wire.id, { [l!.wire.from.part === l!.part ? 'to' : 'from']: behind }));
  return [{ title, safe: true, edit: (plan) => inTurn(plan, 'guard.join', title, moves) }];
}

/**
 * The last wire behind the fuse that the current to all of them passes, and which end of it is nearer to them. Not the own lead
 * of what only stands across the supply: behind a guard it could give nothing back.
 */
function sharedWire(facts: Facts, e: Exposure): { wire: Wire; forward: boolean } | null {
  const ways = e.parts.map((p) => {
    const fuseAt = p.steps.map((s) => s.linkType).lastIndexOf('fuse');
    return p.steps.slice(fuseAt + 1).filter((s) => s.wire?.owner === 'build' && !shuntLead(facts, s.wire));
  });
  const shared = (ways[0] ?? []).filter((s) => ways.every((w) => w.some((x) => x.wire?.id === s.wire?.id)));
  const last = shared[shared.length - 1];
  return last?.wire ? { wire: last.wire, forward: `${last.wire.to.part}.${last.wire.to.terminal}` === last.at } : null;
}

/** Does the wire lead to a shunt and no further? */
function shuntLead(facts: Facts, { from, to }: Wire): boolean {
  return [from, to].some(({ part: id, terminal }) => SHUNTS.includes(facts.parts.get(id)?.kind.kind ?? '') && wiresOn(facts.plan, id, terminal).length === 1);
}

function fromSet(facts: Facts, kind: string): Values {
  const row = partSets.get('supply')?.parts.find((p) => p.kind === kind);
  return row ? setPartSettings(row, facts.plan.vehicle.systemV) : {};
}

/** A guard cut in with a both-ways clamp ahead of it: the one that is there moves, or a new one comes. */
function withClamp(facts: Facts, e: Exposure): Repair[] {
  const shared = sharedWire(facts, e);
  const clampFigures = fromSet(facts, 'surge-clamp');
  // A small clamp must not be offered where the dump would destroy it.
  const dump = dumpV(facts);
  if (!shared || !e.fuse || dump > Number(clampFigures.brMinV)) return [];
  const present = e.parts.find((p) => p.view.kind.kind === 'surge-clamp')?.view;
  const lead = present ? facts.netWires(facts.netOf(`${present.part.id}.K`)).filter((w) => endsOn(w, present.part.id, 'K')) : [];
  const movable = present && lead.length === 1 && lead[0]?.id !== shared.wire.id ? { view: present, wire: lead[0]! } : null;
  const title = movable ? 'Cut in a reverse guard, and make the clamp ahead of it work both ways' : 'Cut in a reverse guard with a both-ways clamp ahead of it';
  return [
    {
      title,
      safe: true,
      edit: (plan) => {
        const cut = cutGuard(plan, facts, e, shared, fromSet(facts, 'reverse-guard'));
        if (!cut) return null;
        const guardIn = { part: cut.id, terminal: 'in' };
        const ground = terminalOf(e.parts[0]!.minus);
        const zone = plan.parts[e.parts[0]!.view.part.id]!.zone;
        return inTurn(plan, 'guard.add', title, [
          () => cut.edit,
          (p) => addWire(p, { part: cut.id, terminal: 'gnd' }, ground, { lengthM: 0.1 }).edit,
          ...(movable
            ? [
                (p: Plan) => setSettings(p, movable.view.part.id, { bidirectional: true }),
                (p: Plan) => setWire(p, movable.wire.id, { [movable.wire.from.part === movable.view.part.id ? 'to' : 'from']: guardIn }),
              ]
            : [(p: Plan) => newClamp(p, { zone, x: cut.x, y: cut.y + 120, settings: clampFigures }, guardIn, ground)]),
        ]);
      },
    },
  ];
}

/** A series diode of a rating that needs no clamp: for small currents in a 12 V vehicle. */
function alone(facts: Facts, e: Exposure): Repair[] {
  const shared = sharedWire(facts, e);
  const heatA = shared ? (facts.analysis.wires[shared.wire.id]?.heatA ?? 0) : 0;
  if (!shared || facts.plan.vehicle.systemV !== 12 || heatA > DIODE_MOST_A) return [];
  const settings = { type: 'schottky', dropV: 0.85, ratedA: 5, reverseV: 200 };
  return [{ title: 'Cut in a series diode of 200 V', safe: false, edit: (plan) => cutGuard(plan, facts, e, shared, settings)?.edit ?? null }];
}

function cutGuard(plan: Plan, facts: Facts, e: Exposure, shared: { wire: Wire; forward: boolean }, settings: Values) {
  const near = plan.parts[speaker(e).part.id];
  if (!near || !plan.wires[shared.wire.id]) return null;
  const x = Math.max(0, near.x - 150);
  const y = near.y;
  const lengthM = facts.wireLengthM(shared.wire.id);
  const part = { kind: 'reverse-guard', zone: near.zone, x, y, settings };
  const row = plan.wires[shared.wire.id]!;
  const typed = row.lengthM === undefined ? { ...plan, wires: { ...plan.wires, [row.id]: { ...row, lengthM } } } : plan;
  // It sits close to what it guards: a hand's width before the far end.
  const cut = shared.forward ? splitWire(typed, row.id, part, 'in', 'out', lengthM - 0.1) : splitWire(typed, row.id, part, 'out', 'in', 0.1);
  const edit = { ...cut.edit, changes: cut.edit.changes.map((c) => (c.table === 'wires' && c.id === row.id ? { ...c, before: row } : c)) };
  return { edit, id: cut.id, x, y };
}

function newClamp(plan: Plan, at: { zone: string; x: number; y: number; settings: Values }, plus: End, ground: End): Edit {
  const wires = [
    { from: ['clamp', 'K'], to: [plus.part, plus.terminal], extras: { lengthM: 0.1 } },
    { from: ['clamp', 'A'], to: [ground.part, ground.terminal], extras: { lengthM: 0.1 } },
  ] as const;
  return addParts(plan, { parts: [{ key: 'clamp', kind: 'surge-clamp', turn: 1, ...at }], wires }).edit;
}

function endsOn(w: Wire, id: string, terminal: string): boolean {
  return [w.from, w.to].some((end) => end.part === id && end.terminal === terminal);
}

function terminalOf(key: string): End {
  const dot = key.indexOf('.');
  return { part: key.slice(0, dot), terminal: key.slice(dot + 1) };
}
