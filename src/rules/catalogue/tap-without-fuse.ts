import { smallestFuseA } from '../../analysis/choose.ts';
import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import type { Edit, Plan, Wire } from '../../plan/types.ts';
import { TAP_DISTANCE_M } from '../../trade/fuses.ts';
import { resistorWattsAt } from '../../trade/preferred.ts';
import { amps, called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';
import { inTurn } from '../fixes.ts';
import { along, change, donorProtects, FUSE_AT_M, fuseAtTap, isShunt, type Tap, taps, unfusedReach } from '../taps.ts';
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
    const reached = tap ? unfused(facts, tap) : [];
    const first = [...new Set(reached.map((h) => h.steps[0]?.wire).filter((w): w is Wire => w?.owner === 'build'))].filter((w) => endsAt(w, tap!));
    const cut = first[0];
    if (!tap || !cut) return [];
    const title = `Put a fuse ${FUSE_AT_M} m from the tap`;
    const ways = new Set(reached.flatMap((h) => along(facts, h.steps).wires));
    const heatA = first.reduce((sum, w) => sum + (facts.analysis.wires[w.id]?.heatA ?? 0), 0);
    const ratingA = smallestFuseA(heatA, tap.view.runningMaxC);
    if (ratingA === null) return [];
    const thin = [...ways].filter((w) => w.areaMm2 !== undefined && (facts.analysis.wires[w.id]?.limitA ?? 0) < ratingA);
    return [
      {
        title,
        safe: true,
        edit: (plan) => {
          let fuse = '';
          return inTurn(plan, 'fuse.add', title, [
            // A wire too thin for the fuse that its load needs goes back to automatic.
            (p) => rewired(p, title, thin, withoutSize),
            (p) => {
              const added = fuseAtTap(p, tap, cut.id, facts.wireLengthM(cut.id));
              fuse = added?.fuse ?? '';
              return added?.edit ?? null;
            },
            // Further wires from the same tap start behind the fuse.
            (p) => rewired(p, title, first.slice(1), (w) => moved(w, tap, fuse)),
          ]);
        },
      },
    ];
  },
});

function rewired(plan: Plan, title: string, wires: readonly Wire[], next: (w: Wire) => Wire): Edit {
  return change(plan, 'wire.set', title, (draft) => {
    for (const { id } of wires) if (plan.wires[id]) draft.setWire(next(plan.wires[id]));
  });
}

function withoutSize(w: Wire): Wire {
  const { areaMm2: _typed, ...free } = w;
  return free;
}

function endsAt(w: Wire, tap: Tap): boolean {
  return [w.from, w.to].some((e) => `${e.part}.${e.terminal}` === tap.key);
}

function moved(w: Wire, tap: Tap, fuse: string): Wire {
  const side = w.from.part === tap.view.part.id ? 'from' : 'to';
  return { ...w, [side]: { part: fuse, terminal: '2' } };
}

interface Reached {
  readonly view: PartView;
  readonly steps: readonly Step[];
}

/** Parts that take current from a tap with no fuse on the way. */
function unfused(facts: Facts, tap: Tap): Reached[] {
  return [...unfusedReach(facts, tap)].flatMap(([key, steps]) => {
    const hit = facts.at(key);
    return hit && takes(facts, hit.view, hit.terminal.id, steps, tap) ? [{ view: hit.view, steps }] : [];
  });
}

function judge(facts: Facts, tap: Tap): Verdict[] {
  const hit = unfused(facts, tap);
  const subject = part(tap.view.part.id);
  const first = hit[0];
  if (!first) return [fine(subject)];
  const wires = [...new Set(hit.flatMap((h) => along(facts, h.steps).wires))];
  const thinnestA = Math.min(Number.POSITIVE_INFINITY, ...wires.map((w) => facts.analysis.wires[w.id]?.limitA ?? Number.POSITIVE_INFINITY));
  const guarded = donorProtects(tap, thinnestA);
  const names = [...new Set(hit.map((h) => called(h.view)))];
  const limited = Number.isFinite(thinnestA);
  const way = wires[0] && limited ? ` over ${wireName(facts, wires[0].id)}, which carries ${amps(thinnestA)}` : '';
  return [
    found({
      level: guarded ? 'advice' : 'hazard',
      subject,
      related: [...wires.map((w) => wire(w.id)), ...[...new Set(hit.map((h) => h.view.part.id))].map(part)],
      what: guarded
        ? `${called(tap.view)} feeds ${listed(names)} with no fuse of its own; the vehicle’s ${tap.source.donorFuseA} A fuse, read at the vehicle, protects the wire.`
        : `${called(tap.view)} reaches ${listed(names, 3)} with no fuse on the way${way}.`,
      todo: 'Put a fuse within a hand’s width of the tap, sized for the thinnest wire behind it.',
      figures: limited ? [{ label: 'planning limit of the thinnest wire', value: thinnestA, unit: 'A' }] : [],
    }),
  ];
}

/** Does this part take current here, so that the way to it wants a fuse? */
function takes(facts: Facts, view: PartView, terminal: string, steps: readonly Step[], tap: Tap): boolean {
  if (view === tap.view || steps.length === 0 || view.facts.tap || isShunt(view)) return false;
  const kind = view.kind.kind;
  // A relay's contact passes current on; its coil takes some.
  if (kind === 'relay' && terminal !== '86' && terminal !== '85') return false;
  if (kind === 'resistor') {
    const hot = facts.corners.hiV ** 2 / (view.s.num('ohm') * (1 - view.s.num('tol')));
    const small = view.s.num('ohm') >= LIMITING_OHM && hot <= resistorWattsAt(view.s.num('ratedW'), view.maxC);
    return !(small && along(facts, steps).lengthM <= TAP_DISTANCE_M.advice);
  }
  return !PASSIVE.has(kind);
}
