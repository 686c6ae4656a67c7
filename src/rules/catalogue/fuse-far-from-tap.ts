import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { SHEATHED_LIMIT_M, TAP_DISTANCE_M } from '../../trade/fuses.ts';
import { called, defineRule, part, two, verdicts, wire } from '../defineRule.ts';
import { along, change, donorProtects, FUSE_AT_M, type Tap, taps, unfusedReach } from '../taps.ts';

const { fine, found } = verdicts('fuse-far-from-tap', 'A2');

export const fuseFarFromTap = defineRule({
  id: 'fuse-far-from-tap',
  code: 'A2',
  level: 'hazard',
  title: 'Fuse too far from the tap',
  why: 'The piece between tap and fuse is guarded by nothing of ours. The shorter it is, the less of it can chafe.',
  source: {
    text: 'Trade practice 150 and 450 mm; US small-craft rule 33 CFR 183.455 allows 7 in (178 mm), 40 in (1.02 m) in a sheath',
    grade: "fitters' habit",
  },
  needs: 'graph',
  disputed:
    'How far is too far differs by trade: 178 mm in a rule for small craft (more in a sheath), 450 mm among vehicle fitters, up to 3 m of guarded wire in machines. The nearer, the less wire can chafe with nothing to open; the farther, the easier a fuse is reached. Here 150 mm is usual and 450 mm the most, twice that in a sleeve; both can be changed for a plan.',
  limits: [
    {
      key: 'fuseAdviceM',
      title: 'Fuse from the tap, usual limit',
      unit: 'm',
      value: TAP_DISTANCE_M.advice,
      least: 0.02,
      most: 2,
      basis: 'trade practice; 178 mm in the US small-craft rule',
    },
    {
      key: 'fuseHazardM',
      title: 'Fuse from the tap, the most',
      unit: 'm',
      value: TAP_DISTANCE_M.hazard,
      least: 0.02,
      most: 3,
      basis: 'trade practice; 1.02 m in a sheath in the US small-craft rule, up to 3 m guarded in machines (IEC 60204-1)',
    },
  ],
  always: true,
  check: (facts) =>
    firstFuses(facts).map(({ tap, fuse, lengthM, steps }) => {
      const subject = part(fuse.part.id);
      const wires = along(facts, steps).wires;
      const sleeved = wires.length > 0 && wires.every((w) => w.sleeved);
      const post = tap.source.kind === 'battery' || tap.source.kind === 'store';
      const factor = sleeved ? 2 : 1;
      const advice = facts.threshold('fuseAdviceM', TAP_DISTANCE_M.advice) * factor;
      const hazard = Math.min(SHEATHED_LIMIT_M, facts.threshold('fuseHazardM', TAP_DISTANCE_M.hazard) * factor);
      if (lengthM <= advice + 1e-9) return fine(subject);
      const thinnest = Math.min(...wires.map((w) => facts.analysis.wires[w.id]?.limitA ?? Number.POSITIVE_INFINITY));
      const level = donorProtects(tap, thinnest) ? 'advice' : lengthM > (post ? advice : hazard) + 1e-9 ? 'hazard' : 'advice';
      return found({
        level,
        subject,
        related: [part(tap.view.part.id), ...wires.map((w) => wire(w.id))],
        what: `${called(fuse)} sits ${two(lengthM)} m from ${called(tap.view)}; ${two(advice)} m is the usual limit${level === 'advice' ? '' : ` and ${two(hazard)} m the most`}.`,
        todo: `Move the fuse to ${FUSE_AT_M} m from the tap.`,
        figures: [
          { label: 'unprotected length', value: lengthM, unit: 'm' },
          { label: 'usual limit', value: advice, unit: 'm' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const here = firstFuses(facts).find((f) => f.fuse.part.id === finding.subject.id);
    const near = here ? along(facts, here.steps).wires : [];
    const one = near[0];
    if (!here || !one || near.length !== 1) return [];
    const far = [...facts.netWires(facts.netOf(`${here.fuse.part.id}.1`)), ...facts.netWires(facts.netOf(`${here.fuse.part.id}.2`))].find(
      (w) => w.id !== one.id && [w.from.part, w.to.part].includes(here.fuse.part.id),
    );
    return [
      {
        title: `Move the fuse to ${FUSE_AT_M} m from the tap`,
        safe: true,
        edit: (plan) =>
          change(plan, 'fuse.move', 'Move the fuse to the tap', (draft) => {
            const fuse = plan.parts[here.fuse.part.id];
            const tap = plan.parts[here.tap.view.part.id];
            const nearWire = plan.wires[one.id];
            if (!fuse || !tap || !nearWire) return;
            draft.setPart({ ...fuse, zone: tap.zone, x: tap.x + 150, y: tap.y + 10 });
            draft.setWire({ ...nearWire, lengthM: FUSE_AT_M });
            const farWire = far && plan.wires[far.id];
            if (farWire) draft.setWire({ ...farWire, lengthM: Math.round((facts.wireLengthM(far.id) + here.lengthM - FUSE_AT_M) * 100) / 100 });
          }),
      },
    ];
  },
});

interface First {
  readonly tap: Tap;
  readonly fuse: PartView;
  readonly lengthM: number;
  readonly steps: readonly Step[];
}

/** The fuses met first from each tap, with the unprotected way to them (the longest where there are several). */
function firstFuses(facts: Facts): First[] {
  const byFuse = new Map<PartView, First>();
  for (const tap of taps(facts)) {
    for (const [key, steps] of unfusedReach(facts, tap)) {
      const fuse = facts.at(key)?.view;
      if (fuse?.kind.kind !== 'blade-fuse') continue;
      const { lengthM } = along(facts, steps);
      if (lengthM > (byFuse.get(fuse)?.lengthM ?? -1)) byFuse.set(fuse, { tap, fuse, lengthM, steps });
    }
  }
  return [...byFuse.values()];
}
