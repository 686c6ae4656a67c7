import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { bankFarad, cellsOf } from '../../parts/storeFigures.ts';
import type { SourceFact } from '../../parts/types.ts';
import { Draft } from '../../plan/draft.ts';
import type { Edit, End, Plan } from '../../plan/types.ts';
import { resistorWattsAt } from '../../trade/preferred.ts';
import { beside, end, farEnd, movedEnd, newPart, newWire, onlyWire, SHORT_M } from '../build.ts';
import { amps, called, defineRule, part, plain, two, verdicts, volts } from '../defineRule.ts';
import { storesOf } from '../storeHold.ts';
import { grounded, type Hop, isResistor, netAt, waysFrom } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('empty-store-like-short', 'F6');
/** A charger stops at so much a cell, V (common practice, no source). */
const FULL_CELL_V = 2.5;
/** Full within a drive to the next corner, s (judgement of the house). */
const SOON_S = 60;
const NOT_YET = 'the computer may lose its power before it has stopped';

export const emptyStoreLikeShort = defineRule({
  id: 'empty-store-like-short',
  code: 'F6',
  level: 'fault',
  title: 'Empty supercapacitor looks like a short',
  why: 'A supercapacitor that is empty takes all the current that there is until it is full. For so long the fuse blows, or the voltage beside it stays down and nothing starts.',
  source: { text: 'Filling time C × V / I; half of V² / R in the resistor at first: calculated', grade: "fitters' habit" },
  needs: 'graph',
  explains: ['output-capacitor-stalls-start'],
  check: (facts) => storesOf(facts).flatMap((store) => judge(facts, store)),
  repair: (finding, facts) => {
    const store = facts.parts.get(finding.subject.id);
    return store ? limiterRepair(facts, store) : [];
  },
});

interface Filling {
  readonly view: PartView;
  readonly source: SourceFact;
  readonly hops: readonly Hop[];
  readonly ohm: number;
}

/** What fills a store with nothing but resistors to limit it, the way of least resistance. */
function fillings(facts: Facts, store: PartView): Filling[] {
  const back = (h: Hop): boolean =>
    !h.views.includes(store) &&
    h.views[0]!.kind.kind !== 'charge-limiter' &&
    (h.link.type === 'fuse' || h.link.type === 'contact' || h.link.type === 'conductor' || isResistor(h) || (h.link.type === 'diode' && !h.forward));
  const ways = waysFrom(facts, netAt(facts, store, '+'), back, (net) => grounded(facts, net));
  return [...facts.parts.values()].flatMap((view) =>
    (view.facts.sources ?? []).flatMap((source) => {
      const way = source.kind === 'store' || source.kind === 'audio' || source.kind === 'pin' ? undefined : ways.get(netAt(facts, view, source.terminal));
      return way && view !== store ? [{ view, source, hops: way.hops, ohm: way.ohm }] : [];
    }),
  );
}

function faradOf(store: PartView): number {
  return store.kind.kind === 'store' ? bankFarad(store.s) : store.s.num('farad');
}

function judge(facts: Facts, store: PartView): Verdict[] {
  if (!facts.isWired(`${store.part.id}.+`) || !facts.isWired(`${store.part.id}.-`)) return [];
  const subject = part(store.part.id);
  const bare = fillings(facts, store).filter((f) => f.ohm === 0)[0];
  if (bare) return [bareVerdict(facts, store, bare)];
  for (const f of fillings(facts, store)) {
    const volt = voltsOf(facts, f.source);
    const r = f.hops.filter(isResistor).flatMap((h) => h.views)[0];
    if (!r) continue;
    const watt = volt ** 2 / (2 * f.ohm);
    const allowedW = resistorWattsAt(r.s.num('ratedW'), r.maxC);
    if (watt <= allowedW) continue;
    return [
      found({
        level: 'fault',
        subject,
        related: [part(r.part.id)],
        what: `While ${called(store)} fills from ${volts(volt)}, ${called(r)} turns ${two(watt)} W to heat for ${plain(f.ohm * faradOf(store))} s and may turn ${two(allowedW)} W.`,
        todo: 'Fill it with a charge limiter, or over a resistor of more watts.',
        figures: [
          { label: 'heat while filling', value: watt, unit: 'W' },
          { label: 'allowed', value: allowedW, unit: 'W' },
        ],
      }),
    ];
  }
  return [fine(subject), ...notReadyYet(facts, store)];
}

/** A limiter fills slowly on purpose: until then nothing holds the computer up. Nothing where it is soon full. */
function notReadyYet(facts: Facts, store: PartView): Verdict[] {
  const near = waysFrom(
    facts,
    netAt(facts, store, '+'),
    (h) => h.link.type === 'fuse' || h.link.type === 'conductor',
    (net) => grounded(facts, net),
  );
  const limiter = facts.ofKind('charge-limiter').find((v) => near.has(netAt(facts, v, 'store')));
  if (!limiter) return [];
  const fillS = (faradOf(store) * limiter.s.num('fullV')) / (limiter.s.num('limitA') * (1 - limiter.s.num('limitTol')));
  if (fillS <= SOON_S) return [];
  const advice = found({
    level: 'advice',
    subject: part(limiter.part.id),
    related: [part(store.part.id)],
    what: `Empty, ${called(store)} takes ${two(fillS / 60)} minutes to fill through ${called(limiter)}: switched off before that, ${NOT_YET}.`,
    todo: 'Let the engine run that long after the first fitting and after weeks of standing, before you rely on it.',
    figures: [{ label: 'filling time', value: fillS, unit: 's' }],
    state: 'RUN_CHARGING',
    band: null,
  });
  return [advice];
}

function voltsOf(facts: Facts, source: SourceFact): number {
  return source.kind === 'battery' || source.kind === 'feed' ? facts.corners.chargeV : source.nominalV;
}

function bareVerdict(facts: Facts, store: PartView, f: Filling): Verdict {
  const volt = voltsOf(facts, f.source);
  const limitA = f.source.limitA;
  const fillS = limitA === null ? 0 : (faradOf(store) * volt) / leastLimitA(f, limitA);
  const peakA = volt / (f.source.minOhm + (store.facts.links?.find((l) => l.type === 'capacitor')?.ohm ?? 0));
  return found({
    level: 'fault',
    subject: part(store.part.id),
    related: [part(f.view.part.id)],
    what:
      limitA === null
        ? `Nothing limits what ${called(store)} takes from ${called(f.view)} when it is empty: ${amps(peakA)} at first.`
        : `Empty, ${called(store)} holds the output of ${called(f.view)} at its current limit of ${amps(leastLimitA(f, limitA))} for ${plain(fillS)} s, and for so long there is no ${volts(volt)}.`,
    todo: 'Fill it over a charge limiter and let that feed the load from the supply meanwhile.',
    figures: limitA === null ? [{ label: 'takes at first', value: peakA, unit: 'A' }] : [{ label: 'filling time', value: fillS, unit: 's' }],
  });
}

/** Current limit of what fills it at its least, A. */
function leastLimitA(f: Filling, limitA: number): number {
  const least = f.view.kind.settings.some((s) => s.key === 'limitMinA') ? f.view.s.num('limitMinA') : 0;
  return least > 0 ? Math.min(least, limitA) : limitA;
}

/** A charge limiter into the branch of the store, beyond its fuse if it has one: it fills slowly and gives at once. */
function limiterRepair(facts: Facts, store: PartView): Repair[] {
  const first = onlyWire(facts.plan, store.part.id, '+');
  const zero = onlyWire(facts.plan, store.part.id, '-');
  if (!first || !zero) return [];
  const far = farEnd(first, store.part.id);
  const fuse = facts.parts.get(far.part)?.kind.kind === 'blade-fuse' ? far : null;
  const near: End = fuse ? end(fuse.part, fuse.terminal === '1' ? '2' : '1') : end(store.part.id, '+');
  const wire = fuse ? onlyWire(facts.plan, near.part, near.terminal) : first;
  if (!wire) return [];
  const fullV = store.kind.kind === 'store' ? FULL_CELL_V * cellsOf(store.s) : store.s.num('ratedV');
  return [
    {
      title: `Fill it over a charge limiter, up to ${plain(fullV)} V`,
      safe: false,
      edit: (plan) => limiterEdit(plan, store.part.id, near, wire.id, farEnd(zero, store.part.id), fullV),
    },
  ];
}

function limiterEdit(plan: Plan, storeId: string, near: End, wireId: string, ground: End, fullV: number): Edit | null {
  const store = plan.parts[storeId];
  const wire = plan.wires[wireId];
  if (!store || !wire) return null;
  const draft = new Draft(plan);
  const limiter = newPart(draft, { kind: 'charge-limiter', ...beside(store, -180, 0), name: 'Charge limiter', settings: { fullV } });
  const away = farEnd(wire, near.part);
  draft.setWire(movedEnd(wire, near, end(limiter, 'in')));
  newWire(draft, end(limiter, 'out'), away, { lengthM: SHORT_M });
  newWire(draft, near, end(limiter, 'store'), { lengthM: SHORT_M });
  newWire(draft, end(limiter, 'gnd'), ground, { lengthM: SHORT_M });
  return draft.edit('repair.apply', 'Fill over a charge limiter');
}
