import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { listed } from '../../plan/listed.ts';
import type { Edit, Plan, Wire } from '../../plan/types.ts';
import { RETURN_SWITCH_A } from '../../trade/fitting.ts';
import { end, farEnd, movedEnd, newWire, onlyWire } from '../build.ts';
import { amps, called, defineRule, part, verdicts } from '../defineRule.ts';
import { vehicleRail, type Way } from '../rails.ts';
import { FUSE_AT_M } from '../taps.ts';
import { netAt, partsOn } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('break-only-in-return', 'A8');
/** Where a return ends: at the body or the battery; on the far side of a converter at its own 0 V. */
const ROOTS: Readonly<Record<string, number>> = { 'chassis-ground': 2, battery: 2, 'step-down': 1, 'linear-regulator': 1 };

export const breakOnlyInReturn = defineRule({
  id: 'break-only-in-return',
  code: 'A8',
  level: 'hazard',
  title: 'Fuse or switch only in the ground wire',
  why: 'A chafed feed touches the body and goes round whatever sits in the ground wire: nothing opens. And once such a fuse has blown, the load current goes home through the screen of the sound or picture lead.',
  source: { text: 'Universal fitting practice: fuse and switch belong in the feed, the ground stays whole', grade: "fitters' habit" },
  needs: 'readings',
  always: true,
  check: (facts) => facts.ofKind('blade-fuse', 'master-switch').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const place = view && inReturn(facts, view);
    return view && place ? moveToFeed(facts, view, place) : [];
  },
});

interface Place {
  /** Terminal on the side of the load, and on the side of the ground. */
  readonly near: '1' | '2';
  readonly far: '1' | '2';
  /** What gives its current back through it: part and plus terminal. */
  readonly loads: readonly { readonly view: PartView; readonly plus: string }[];
}

/** Does the part lie between the minus side of something and its ground? */
function inReturn(facts: Facts, view: PartView): Place | null {
  const nets = { '1': netAt(facts, view, '1'), '2': netAt(facts, view, '2') };
  if (nets['1'] === nets['2'] || nets['1'] === -1 || nets['2'] === -1) return null;
  const live = (net: number): boolean => (facts.nominalV(net) ?? 0) > 0;
  if (live(nets['1']) || live(nets['2'])) return null;
  const rank = (net: number): number =>
    Math.max(0, ...partsOn(facts, net).map((p) => (p.view.terminals.find((t) => t.id === p.terminal)?.role === 'ground' ? (ROOTS[p.view.kind.kind] ?? 0) : 0)));
  const [one, two] = [rank(nets['1']), rank(nets['2'])];
  if (one === two) return null;
  const [near, far] = one > two ? (['2', '1'] as const) : (['1', '2'] as const);
  const loads = partsOn(facts, nets[near]).flatMap(({ view: v, terminal }) => {
    const pair = v.facts.loads?.find((l) => l.minus === terminal) ?? v.facts.polar?.find((p) => p.minus === terminal);
    return pair && v !== view ? [{ view: v, plus: pair.plus }] : [];
  });
  return loads.length === 0 ? null : { near, far, loads };
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const subject = part(view.part.id);
  const place = inReturn(facts, view);
  if (!place) return facts.isWired(`${view.part.id}.1`) && facts.isWired(`${view.part.id}.2`) ? [fine(subject)] : [];
  const isFuse = view.kind.kind === 'blade-fuse';
  const bare = place.loads.filter((l) => !switchedInFeed(facts, l));
  const amp = isFuse ? 0 : worstA(facts, view);
  if (!isFuse && (amp <= RETURN_SWITCH_A || bare.length === 0)) return [fine(subject)];
  const of = listed((isFuse ? place.loads : bare).map((l) => called(l.view)));
  return [
    found({
      level: 'hazard',
      subject,
      related: [...new Set(place.loads.map((l) => l.view.part.id))].map(part),
      what: isFuse
        ? `${called(view)} lies in the ground wire of ${of}: a chafed feed goes round it, and once it has blown the current goes home over whatever else joins the grounds.`
        : `${called(view)} breaks only the ground wire of ${of}, ${amps(amp)}: with it open the feed stays live up to the part.`,
      todo: 'Move it into the feed and let the ground wire go straight to its ground.',
      figures: isFuse ? [] : [{ label: 'carries', value: amp, unit: 'A' }],
    }),
  ];
}

/** Can something in the feed cut this load off? What a converter feeds is cut with the converter. */
function switchedInFeed(facts: Facts, load: Place['loads'][number]): boolean {
  const way = vehicleRail(facts).get(`${load.view.part.id}.${load.plus}`);
  return !way || way.steps.some((s) => s.linkType === 'contact');
}

function worstA(facts: Facts, view: PartView): number {
  const amp = (a: number | null): number => Math.abs(a ?? 0);
  return Math.max(amp(facts.designElementA(view.part.id, 'sw')), ...facts.solved.map((r) => amp(facts.elementA(view.part.id, 'sw', r.state, r.band))));
}

/** Out of the return, and into the feed: a fuse at the tap where there is none yet, a switch ahead of the load. */
function moveToFeed(facts: Facts, view: PartView, place: Place): Repair[] {
  const isFuse = view.kind.kind === 'blade-fuse';
  const wayTo = (l: Place['loads'][number]): Way | undefined => vehicleRail(facts).get(`${l.view.part.id}.${l.plus}`);
  const fused = place.loads.every((l) => wayTo(l)?.steps.some((s) => s.linkType === 'fuse') ?? true);
  if (isFuse && fused) return [{ title: 'Take the fuse out of the ground wire', safe: false, edit: (plan) => edited(plan, view, place, null) }];
  const load = place.loads.length === 1 ? place.loads[0] : undefined;
  const way = load && wayTo(load);
  const feeds = way?.steps.flatMap((s) => (s.wire?.owner === 'build' ? [s.wire] : [])) ?? [];
  const feed = isFuse ? feeds[0] : feeds[feeds.length - 1];
  if (!way || !feed) return [];
  const start = isFuse ? { part: way.tap.view.part.id, terminal: way.tap.source.terminal } : null;
  return [
    {
      title: isFuse ? 'Move the fuse to the tap' : 'Move the switch into the feed',
      safe: true,
      edit: (plan) => edited(plan, view, place, { wire: feed.id, start, lengthM: facts.wireLengthM(feed.id) }),
    },
  ];
}

interface Into {
  readonly wire: string;
  /** The tap that the wire starts from; null for a switch, which sits half way. */
  readonly start: Wire['from'] | null;
  readonly lengthM: number;
}

function edited(plan: Plan, view: PartView, place: Place, into: Into | null): Edit | null {
  const row = plan.parts[view.part.id];
  const near = onlyWire(plan, view.part.id, place.near);
  const far = onlyWire(plan, view.part.id, place.far);
  if (!row || !near || !far || near === far) return null;
  const draft = new Draft(plan);
  // The return becomes one wire, as long as its two pieces were.
  const whole = near.lengthM !== undefined && far.lengthM !== undefined ? { lengthM: near.lengthM + far.lengthM } : {};
  draft.setWire({ ...movedEnd(near, end(row.id, place.near), farEnd(far, row.id)), ...whole });
  draft.removeWire(far.id);
  if (!into) {
    draft.removePart(row.id);
    return draft.edit('part.take-out', 'Take the fuse out of the ground wire');
  }
  const feed = plan.wires[into.wire];
  if (!feed) return null;
  const from = into.start ?? feed.from;
  const to = feed.from.part === from.part && feed.from.terminal === from.terminal ? feed.to : feed.from;
  const firstM = into.start ? FUSE_AT_M : into.lengthM / 2;
  const { id: _id, from: _from, to: _to, bends: _bends, lengthM: _lengthM, owner: _owner, ...looks } = feed;
  const { number: _number, ...second } = looks;
  draft.removeWire(feed.id);
  newWire(draft, from, end(row.id, '1'), { ...looks, lengthM: tidy(firstM) });
  newWire(draft, end(row.id, '2'), to, { ...second, lengthM: tidy(into.lengthM - firstM) });
  const tap = into.start && plan.parts[into.start.part];
  if (tap) draft.setPart({ ...row, zone: tap.zone, x: tap.x + 150, y: tap.y + 10 });
  return draft.edit('part.move', into.start ? 'Move the fuse to the tap' : 'Move the switch into the feed');
}

const tidy = (m: number): number => Math.max(0.05, Math.round(m * 100) / 100);
