import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { LoadFact } from '../../parts/types.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { LEAST_SUPPLY_SLACK } from '../../trade/links.ts';
import { supplyWires } from '../cables.ts';
import { amps, called, defineRule, part, two, verdicts, volts, wire } from '../defineRule.ts';
import { thickenForDrop } from '../fixes.ts';
import { vehicleRail } from '../rails.ts';
import { atTap } from '../taps.ts';

const { fine, found, unknown } = verdicts('camera-starved-at-night', 'I4');
/** Thicker wire than this does not go into a camera's plug, mm² (common practice, no source). */
const MOST_MM2 = 2.5;
/** Kept back when sizes are chosen, for joints that age. */
const BUDGET_SHARE = 0.85;
/** Least supply of cameras made for both systems, V (common practice, no source). */
const WIDE = { minV: 9, maxV: 36, absMaxV: 60 } as const;

export const cameraStarvedAtNight = defineRule({
  id: 'camera-starved-at-night',
  code: 'I4',
  level: 'fault',
  title: 'Camera starved at night',
  why: 'In the dark a camera lights its own lamps and takes three times as much. Over a long thin lead that is when the picture rolls or goes black: in the dark, when one needs it.',
  source: { text: 'Least supply from the camera’s sheet; conductor resistance IEC 60228 class 5 (read)', grade: 'data sheet' },
  needs: 'readings',
  explains: ['feed-drop'],
  check: (facts) =>
    cameras(facts).flatMap(({ view, load }) => {
      const subject = part(view.part.id);
      const volt = facts.designAcross(`${view.part.id}.${load.plus}`, `${view.part.id}.${load.minus}`);
      if (volt === null) return [unknown(subject, 'a plan that comes to rest at the lowest supply')];
      // Dead at the lowest supply: what feeds it has let go, which is another matter.
      if (volt < load.minV! / 4) return [];
      const leastV = load.minV! - LEAST_SUPPLY_SLACK * load.nominalV;
      // At the design corner the leads are to blame or nothing is; with the key on and the engine still it must work whatever is to blame.
      const keyOnV = facts.across(`${view.part.id}.${load.plus}`, `${view.part.id}.${load.minus}`, 'RUN_STOPPED', 'low');
      const thin = lostV(facts, view, load) > LEAST_SUPPLY_SLACK * load.nominalV;
      if (volt >= leastV || (!thin && (keyOnV ?? 0) >= leastV)) return [fine(subject)];
      const wires = supplyWires(facts, view, load);
      const tap = vehicleRail(facts).get(`${view.part.id}.${load.plus}`)?.tap;
      const supplyV = tap ? atTap(facts, tap, facts.corners.loV) : facts.corners.loV;
      return [
        found({
          level: 'fault',
          subject,
          related: wires.map((w) => wire(w.id)),
          what: `${called(view)} gets ${volts(volt)} at ${volts(supplyV)} supply with ${amps(load.peakA)} by night, and needs ${volts(load.minV!)}; its leads lose ${two(lostV(facts, view, load))} V.`,
          todo: 'Make its leads thicker, or take a camera that works from fewer volts.',
          figures: [
            { label: 'arrives', value: volt, unit: 'V' },
            { label: 'needed', value: load.minV!, unit: 'V' },
            { label: 'lost in leads', value: lostV(facts, view, load), unit: 'V' },
          ],
          state: 'RUN_STOPPED',
          band: 'low',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const here = cameras(facts).find((c) => c.view.part.id === finding.subject.id);
    if (!here) return [];
    const { view, load } = here;
    const short = load.minV! - (finding.figures.find((f) => f.label === 'arrives')?.value ?? 0);
    const budgetV = BUDGET_SHARE * (lostV(facts, view, load) - short + LEAST_SUPPLY_SLACK * load.nominalV);
    const thicker = budgetV > 0 ? thickenForDrop(facts, supplyWires(facts, view, load), budgetV, MOST_MM2) : null;
    if (thicker) return [thicker];
    const arrivesV = load.minV! - short;
    if (load.minV! <= WIDE.minV || arrivesV < WIDE.minV) return [];
    return [{ title: 'Take a camera for 9 to 36 V', safe: false, edit: (plan) => setSettings(plan, view.part.id, { ...WIDE }) }];
  },
});

interface Fed {
  readonly view: PartView;
  readonly load: LoadFact;
}

/** Cameras and the ends of long picture links, with their supply joined. */
function cameras(facts: Facts): Fed[] {
  return facts
    .ofKind('camera', 'video-sender', 'video-receiver')
    .flatMap((view) =>
      (view.facts.loads ?? [])
        .filter((l) => l.minV !== null && facts.isWired(`${view.part.id}.${l.plus}`) && facts.isWired(`${view.part.id}.${l.minus}`))
        .map((load) => ({ view, load })),
    );
}

function lostV(facts: Facts, view: PartView, load: LoadFact): number {
  return supplyWires(facts, view, load).reduce(
    (sum, w) => sum + Math.abs(facts.designAcross(`${w.from.part}.${w.from.terminal}`, `${w.to.part}.${w.to.terminal}`) ?? 0),
    0,
  );
}
