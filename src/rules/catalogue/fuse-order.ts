import { largestFuseA, smallestFuseA } from '../../analysis/choose.ts';
import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { FUSE_STEP } from '../../trade/fitting.ts';
import { amps, called, defineRule, part, two, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { converters, vehicleRail } from '../rails.ts';
import { standsFilling } from '../switchOnSurge.ts';
import { type Tap, taps, unfusedReach } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('fuse-order', 'A14');
const FORWARD = ['fuse', 'contact', 'conductor', 'diode'];

export const fuseOrder = defineRule({
  id: 'fuse-order',
  code: 'A14',
  level: 'advice',
  title: 'The wrong fuse may open first',
  why: 'When a branch has a fault, only its own fuse should open. If the fuse ahead of it is hardly larger, it may be that one, and everything else goes dark with the branch.',
  source: { text: 'Each fuse at least 1.6 times the one behind it: common practice, no source', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => facts.ofKind('blade-fuse').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const fuse = facts.analysis.fuses[finding.subject.id];
    const up = view && ahead(facts, view);
    if (!view || !up || !fuse) return [];
    const fits = largestFuseA(up.ratingA / FUSE_STEP);
    const least = smallestFuseA(fuse.heatA, view.runningMaxC);
    return fits === null || least === null || least > fits || !standsFilling(facts, view, fits)
      ? []
      : [typing(view.part.id, { ratingA: fits }, `Fit a ${fits} A fuse`, true)];
  },
});

interface Ahead {
  readonly ratingA: number;
  readonly name: string;
  readonly view: PartView;
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const up = ahead(facts, view);
  if (!up) return [];
  const subject = part(view.part.id);
  if (atStore(facts, view)) return [fine(subject)];
  const ratingA = view.s.num('ratingA');
  if (ratingA * FUSE_STEP <= up.ratingA * (1 + 1e-9)) return [fine(subject)];
  return [
    found({
      level: 'advice',
      subject,
      related: [part(up.view.part.id)],
      what: `${called(view)} has ${amps(ratingA)} and ${up.name} ahead of it ${amps(up.ratingA)}${up.ratingA === ratingA ? ' as well' : `, ${two(up.ratingA / ratingA)} times as much`}; ${FUSE_STEP} times are wanted for the right one to open.`,
      todo: 'Fit a smaller fuse in the branch, if its load allows it.',
      figures: [
        { label: 'this fuse', value: ratingA, unit: 'A' },
        { label: 'fuse ahead', value: up.ratingA, unit: 'A' },
      ],
    }),
  ];
}

/** The fuse that the same current passes before: one of ours, else the vehicle's where it was read. Not across a converter. */
function ahead(facts: Facts, view: PartView): Ahead | null {
  const way = wayTo(facts, view);
  if (!way) return null;
  const last = way.steps.filter((s) => s.linkType === 'fuse' && s.through !== view).pop()?.through;
  if (last) return { ratingA: last.s.num('ratingA'), name: called(last), view: last };
  const source = way.tap?.source;
  return source?.donorFuseRead && source.donorFuseA !== undefined
    ? { ratingA: source.donorFuseA, name: `the vehicle’s fuse of ${called(way.tap!.view)}`, view: way.tap!.view }
    : null;
}

/** Is it the first fuse behind an energy store? It guards what the store gives; what fills the store is no branch of it. */
function atStore(facts: Facts, view: PartView): boolean {
  return taps(facts).some((t) => t.source.kind === 'store' && ['1', '2'].some((end) => unfusedReach(facts, t).has(`${view.part.id}.${end}`)));
}

interface Reached {
  readonly steps: readonly Step[];
  readonly tap: Tap | null;
}

/** The shorter way to either side of a fuse: the one that has not passed it yet. */
function wayTo(facts: Facts, view: PartView): Reached | null {
  const keys = ['1', '2'].map((t) => `${view.part.id}.${t}`);
  const found: Reached[] = keys.flatMap((key) => vehicleRail(facts).get(key) ?? []);
  if (found.length === 0) {
    for (const c of converters(facts)) {
      const reached = facts.reach(c.outKey, FORWARD);
      for (const key of keys) {
        const steps = reached.get(key);
        if (steps) found.push({ steps, tap: null });
      }
      if (found.length > 0) break;
    }
  }
  return found.sort((a, b) => a.steps.length - b.steps.length)[0] ?? null;
}
