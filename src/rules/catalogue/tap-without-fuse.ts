import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { TAP_DISTANCE_M } from '../../trade/fuses.ts';
import { resistorWattsAt } from '../../trade/preferred.ts';
import { amps, called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';
import { along, donorProtects, fuseAtTap, isShunt, type Tap, taps, unfusedReach } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('tap-without-fuse', 'A1');
/** A resistor of this size at the tap limits a short to some milliamps and so protects the wire behind it. */
const LIMITING_OHM = 1000;
/** Kinds that pass current on and take none themselves. */
const PASSIVE = new Set(['splice', 'terminal-strip', 'connector', 'blade-fuse', 'master-switch', 'chassis-ground', 'battery', 'reverse-guard', 'choke']);

export const tapWithoutFuse = defineRule({
  id: 'tap-without-fuse',
  code: 'A1',
  level: 'hazard',
  title: 'A tap has no fuse',
  why: 'The vehicle can push hundreds of amps through a lead. If our wire chafes through anywhere and nothing of ours opens, it glows until something burns. The vehicle’s own fuse is sized for the vehicle’s wire, not for ours.',
  source: { text: 'Universal fitting practice; stores of 20 J and more count as taps (judgement)', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  explains: ['wire-fuse-too-big', 'fuse-far-from-tap', 'shunt-ahead-of-fuse'],
  check: (facts) => taps(facts).flatMap((tap) => judge(facts, tap)),
  repair: (finding, facts) => {
    const tap = taps(facts).find((t) => t.view.part.id === finding.subject.id);
    if (!tap) return [];
    return facts
      .netWires(facts.netOf(tap.key))
      .filter((w) => w.owner === 'build' && [w.from.part, w.to.part].includes(tap.view.part.id))
      .slice(0, 1)
      .map((w) => ({ title: 'Put a fuse 0.1 m from the tap', safe: true, edit: (plan) => fuseAtTap(plan, tap, w.id, facts.wireLengthM(w.id)) }));
  },
});

function judge(facts: Facts, tap: Tap): Verdict[] {
  const reached = [...unfusedReach(facts, tap)];
  const hit = reached
    .map(([key, steps]) => ({ view: facts.at(key)?.view, steps }))
    .filter((x): x is { view: PartView; steps: readonly Step[] } => x.view !== undefined && takes(facts, x.view, x.steps, tap));
  const subject = part(tap.view.part.id);
  const first = hit[0];
  if (!first) return [fine(subject)];
  const wires = [...new Set(hit.flatMap((h) => along(facts, h.steps).wires))];
  const thinnestA = Math.min(Number.POSITIVE_INFINITY, ...wires.map((w) => facts.analysis.wires[w.id]?.limitA ?? Number.POSITIVE_INFINITY));
  const guarded = donorProtects(tap, thinnestA);
  const names = [...new Set(hit.map((h) => called(h.view)))];
  const way = wires[0] ? ` over ${wireName(facts, wires[0].id)}, which carries ${amps(thinnestA)}` : '';
  return [
    found({
      level: guarded ? 'advice' : 'hazard',
      subject,
      related: [...wires.map((w) => wire(w.id)), ...[...new Set(hit.map((h) => h.view.part.id))].map(part)],
      what: guarded
        ? `${called(tap.view)} feeds ${names.join(', ')} with no fuse of its own; the vehicle’s ${tap.source.donorFuseA} A fuse, read at the vehicle, protects the wire.`
        : `${called(tap.view)} reaches ${names.slice(0, 3).join(', ')}${names.length > 3 ? ` and ${names.length - 3} more` : ''} with no fuse on the way${way}.`,
      todo: 'Put a fuse within a hand’s width of the tap, sized for the thinnest wire behind it.',
      figures: [{ label: 'planning limit of the thinnest wire', value: thinnestA, unit: 'A' }],
    }),
  ];
}

/** Does this part take current here, so that the way to it wants a fuse? */
function takes(facts: Facts, view: PartView, steps: readonly Step[], tap: Tap): boolean {
  if (view === tap.view || steps.length === 0 || view.facts.tap || isShunt(view)) return false;
  const kind = view.kind.kind;
  if (kind === 'resistor') {
    const hot = facts.corners.hiV ** 2 / (view.s.num('ohm') * (1 - view.s.num('tol')));
    const small = view.s.num('ohm') >= LIMITING_OHM && hot <= resistorWattsAt(view.s.num('ratedW'), view.maxC);
    return !(small && along(facts, steps).lengthM <= TAP_DISTANCE_M.advice);
  }
  return !PASSIVE.has(kind);
}
