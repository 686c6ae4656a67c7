import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { Wire } from '../../plan/types.ts';
import { called, defineRule, part, two, verdicts, volts, wire } from '../defineRule.ts';
import { thickenForDrop } from '../fixes.ts';
import { converters, vehicleRail } from '../rails.ts';
import { along, atTap } from '../taps.ts';

const { fine, unknown, found } = verdicts('feed-drop', 'B1');
/** Share of nominal that feed and return may lose together: common practice, no source. */
const ADVICE_SHARE = 0.03;
const FAULT_SHARE = 0.05;
/** Kept back when sizes are chosen, for joints that age. */
const BUDGET_SHARE = 0.85;
/** Thicker wire than this is no answer to a long feed, mm² (common practice, no source). */
const MOST_MM2 = 10;

export const feedDrop = defineRule({
  id: 'feed-drop',
  code: 'B1',
  level: 'fault',
  title: 'Too much voltage lost on the feed',
  why: 'What wires lose is missing where it is needed, most of all on a tired battery: the converter then draws more current, and loses still more.',
  source: { text: '3 % and 5 % of nominal: common practice; conductor resistance IEC 60228 class 5 (read)', grade: "fitters' habit" },
  needs: 'solve',
  disputed:
    'Some size wires by a table of amps alone and check the result at 12.6 V, for a warm wire carries its current all the same. Others give the drop a share of the supply. Here the share counts, at the lowest supply with warm wires: 3 % is the aim, 5 % the most; both can be changed for a plan.',
  limits: [
    {
      key: 'feedDropAdvice',
      title: 'Lost on feed and return, usual aim',
      unit: 'share',
      value: ADVICE_SHARE,
      least: 0.005,
      most: 0.2,
      basis: 'common practice',
    },
    { key: 'feedDropFault', title: 'Lost on feed and return, the most', unit: 'share', value: FAULT_SHARE, least: 0.005, most: 0.3, basis: 'common practice' },
  ],
  check: (facts) =>
    feeds(facts).map((f) => {
      const subject = part(f.view.part.id);
      if (f.dropV === null) return unknown(subject, 'a plan that comes to rest at the lowest supply');
      const share = f.dropV / f.nominalV;
      const advice = facts.threshold('feedDropAdvice', ADVICE_SHARE);
      const fault = facts.threshold('feedDropFault', FAULT_SHARE);
      // As the sentence says it: 3.0 % is not above 3.0 %.
      if (Number(two(share * 100)) <= advice * 100) return fine(subject);
      const much = share > fault && !bearsIt(facts, f);
      return found({
        level: much ? 'fault' : 'advice',
        subject,
        related: f.wires.map((w) => wire(w.id)),
        what: `Feed and return of ${called(f.view)} lose ${two(f.dropV)} V at ${volts(f.supplyV)} supply, ${two(share * 100)} % of ${f.nominalV} V; ${two((much ? fault : advice) * 100)} % is the usual ${much ? 'most' : 'aim'}.`,
        todo: 'Fit thicker wire, or a shorter way.',
        figures: [
          { label: 'lost in wires', value: f.dropV, unit: 'V' },
          { label: 'share of nominal', value: share, unit: '%' },
        ],
        state: 'RUN_STOPPED',
        band: 'low',
      });
    }),
  repair: (finding, facts) => {
    const f = feeds(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!f) return [];
    const budgetV = facts.threshold('feedDropAdvice', ADVICE_SHARE) * f.nominalV * BUDGET_SHARE;
    const repair = thickenForDrop(facts, f.wires, budgetV, MOST_MM2);
    return repair ? [repair] : [];
  },
});

/** A part that says from how many volts it works, and gets them all the same: no more than a matter of taste. Converters draw more when they get less. */
function bearsIt(facts: Facts, f: Feed): boolean {
  if (converters(facts).some((c) => c.view === f.view)) return false;
  const low = facts.analysis.arrivals.find((a) => a.part === f.view.part.id && a.minV !== null && a.worstLow !== null);
  return low !== undefined && low.worstLow!.v >= low.minV!;
}

interface Feed {
  readonly view: PartView;
  readonly wires: readonly Wire[];
  /** What its feed is named by, V: of the vehicle, or of one battery of a pair. */
  readonly nominalV: number;
  /** The lowest supply at its feed, V. */
  readonly supplyV: number;
  /** Lost in our wires there and back at the lowest supply, V; null when that was not solved. */
  readonly dropV: number | null;
}

/** The worst supply path of every part that is fed with the vehicle's volts. */
function feeds(facts: Facts): Feed[] {
  const rail = vehicleRail(facts);
  const worst = new Map<PartView, Feed>();
  for (const { view, load } of facts.loads) {
    const way = rail.get(`${view.part.id}.${load.plus}`);
    if (!way) continue;
    const wires = [...along(facts, way.steps).wires, ...returnWires(facts, `${view.part.id}.${load.minus}`)];
    if (wires.length === 0) continue;
    const drops = wires.map((w) => facts.designAcross(`${w.from.part}.${w.from.terminal}`, `${w.to.part}.${w.to.terminal}`));
    const dropV = drops.some((d) => d === null) ? null : drops.reduce<number>((sum, d) => sum + Math.abs(d!), 0);
    const known = worst.get(view);
    if (!known || (dropV ?? Number.POSITIVE_INFINITY) > (known.dropV ?? Number.POSITIVE_INFINITY))
      worst.set(view, { view, wires, nominalV: atTap(facts, way.tap, facts.plan.vehicle.systemV), supplyV: atTap(facts, way.tap, facts.corners.loV), dropV });
  }
  return [...worst.values()];
}

/** Our wires from a part's minus to where the body or the battery takes over. */
function returnWires(facts: Facts, minus: string): Wire[] {
  for (const [key, steps] of facts.reach(minus, ['conductor', 'contact'], (view) => view.kind.kind === 'chassis-ground')) {
    const kind = facts.at(key)?.view.kind.kind;
    if (kind === 'chassis-ground' || kind === 'battery') return along(facts, steps).wires;
  }
  return [];
}
