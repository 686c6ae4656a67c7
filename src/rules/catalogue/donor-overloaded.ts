import type { Facts } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { planningLimit } from '../../trade/ampacity.ts';
import { DONOR_ASSUMED, DONOR_SHARE } from '../../trade/fitting.ts';
import { BEYOND, flowing } from '../beyond.ts';
import { end, farEnd, onlyWire } from '../build.ts';
import { amps, ampsApart, called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { FUSE_AT_M, type Tap, taps } from '../taps.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('donor-overloaded', 'A13');
/** What the vehicle's own leads are made of, degrees C (ISO 6722 class B, from memory). */
const LEAD_C = 100;
/** Less than this is a signal. */
const SIGNAL_A = 1e-3;
/** What adds no more than this share of what a circuit may bear is not what overloads it: a sensing lead (common practice, no source). */
const NEXT_TO_NOTHING = 0.02;

export const donorOverloaded = defineRule({
  id: 'donor-overloaded',
  code: 'A13',
  level: 'fault',
  title: 'Tapped circuit overloaded',
  why: 'The lead that we tap has a fuse and a size for what it feeds already. With our share on top the vehicle’s fuse runs hot and opens on a summer’s day, and takes radio or lamps with it.',
  source: { text: 'At most 80 % of the vehicle’s fuse; half of it assumed used until somebody measures: common practice, no source', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => feeds(facts).map((tap) => judge(facts, tap)),
  repair: (finding, facts) => {
    const tap = feeds(facts).find((t) => t.view.part.id === finding.subject.id);
    return tap ? toBattery(facts, tap) : [];
  },
});

/** Feeds that we draw from. A battery's post has no donor. */
function feeds(facts: Facts): Tap[] {
  return taps(facts).filter((t) => t.source.kind === 'feed' && oursA(facts, t) >= SIGNAL_A);
}

function oursA(facts: Facts, tap: Tap): number {
  return facts
    .netWires(facts.netOf(tap.key))
    .filter((w) => w.owner === 'build' && [w.from, w.to].some((e) => `${e.part}.${e.terminal}` === tap.key))
    .reduce((sum, w) => sum + (facts.analysis.wires[w.id]?.heatA ?? 0), 0);
}

interface Load {
  readonly oursA: number;
  readonly theirsA: number;
  readonly measured: boolean;
  readonly allowedA: number;
  readonly leadA: number;
}

function loadOf(facts: Facts, tap: Tap): Load {
  const { s } = tap.view;
  const fuseA = s.num('donorFuseA');
  const measured = s.flag('donorLoadMeasured');
  const theirsA = measured || s.typed('donorLoadA') ? s.num('donorLoadA') : DONOR_ASSUMED * fuseA;
  const leadA = planningLimit(s.num('leadMm2'), LEAD_C, tap.view.maxC, 1).limitA;
  return { oursA: oursA(facts, tap), theirsA, measured: measured && s.flag('donorFuseRead'), allowedA: DONOR_SHARE * fuseA, leadA };
}

function judge(facts: Facts, tap: Tap): Verdict {
  const subject = part(tap.view.part.id);
  const load = loadOf(facts, tap);
  const sum = load.oursA + load.theirsA;
  const most = Math.min(load.allowedA, load.leadA);
  if (sum <= most || load.oursA <= NEXT_TO_NOTHING * most) return fine(subject);
  // What is ours alone is no assumption; the vehicle's part may be one.
  const sure = load.measured || load.oursA > most;
  const [together, allowed] = ampsApart(sum, most);
  const why =
    load.leadA < load.allowedA
      ? `its lead of ${plain(tap.view.s.num('leadMm2'))} mm² may carry ${allowed}`
      : `${allowed} is the most of its ${plain(tap.view.s.num('donorFuseA'))} A fuse`;
  return found({
    level: sure ? 'fault' : 'advice',
    subject,
    what: `${called(tap.view)} feeds ${amps(load.theirsA)} already${load.measured ? '' : ', as far as anybody knows,'} and our ${load.oursA > BEYOND.amp ? `${flowing(load.oursA)}, a short circuit` : amps(load.oursA)} on top${load.oursA > BEYOND.amp ? '' : `: ${together}`}, and ${why}.`,
    todo: sure
      ? 'Take the supply from another lead, or from the battery with a fuse of its own there.'
      : 'Read its fuse and measure what the vehicle draws from it; then take another lead if it is too much.',
    figures: [
      { label: 'together', value: sum, unit: 'A' },
      { label: 'may be drawn', value: most, unit: 'A' },
      { label: 'ours', value: load.oursA, unit: 'A' },
    ],
  });
}

/** A constant feed can come from the battery's post just as well: its fuse moves there, and the wire behind grows. */
function toBattery(facts: Facts, tap: Tap): Repair[] {
  const battery = facts.ofKind('battery')[0];
  const id = tap.view.part.id;
  const wire = onlyWire(facts.plan, id, tap.source.terminal);
  const fuse = wire && facts.parts.get(farEnd(wire, id).part);
  if (tap.source.line !== '30' || tap.source.half || !battery || !wire || fuse?.kind.kind !== 'blade-fuse') return [];
  const [near, far] = farEnd(wire, id).terminal === '1' ? ['1', '2'] : ['2', '1'];
  const next = onlyWire(facts.plan, fuse.part.id, far!);
  const lead = onlyWire(facts.plan, id, 'in');
  if (!next) return [];
  const lengthM = Math.round((facts.wireLengthM(next.id) + (lead ? facts.wireLengthM(lead.id) : 0)) * 100) / 100;
  const title = 'Feed it from the battery’s post, with the fuse there';
  return [
    {
      title,
      safe: false,
      edit: (plan) => {
        const [row, post, first, second] = [plan.parts[fuse.part.id], plan.parts[battery.part.id], plan.wires[wire.id], plan.wires[next.id]];
        if (!row || !post || !first || !second) return null;
        const draft = new Draft(plan);
        draft.setPart({ ...row, zone: post.zone, x: post.x + 150, y: post.y + 10 });
        const { bends: _bends, areaMm2: _area, insulationC: _ins, ...plainFirst } = first;
        draft.setWire({ ...plainFirst, from: end(post.id, '+'), to: end(row.id, near!), lengthM: FUSE_AT_M });
        const { bends: _b, areaMm2: _a, insulationC: _i, ...plainSecond } = second;
        draft.setWire({ ...plainSecond, lengthM });
        return draft.edit('wire.move', title);
      },
    },
  ];
}
