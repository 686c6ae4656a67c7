import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { LEAST_ARC_A } from '../../trade/fitting.ts';
import { amps, called, defineRule, part, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { railOver, vehicleRail } from '../rails.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('master-switch-wrong', 'A17');
const FORWARD = ['fuse', 'contact', 'conductor', 'diode'];

export const masterSwitchWrong = defineRule({
  id: 'master-switch-wrong',
  code: 'A17',
  level: 'hazard',
  title: 'Master switch of the wrong kind or in the wrong place',
  why: 'Mains goes through zero a hundred times a second and puts its own arc out; direct current does not, so a switch printed for mains alone may burn on. And a switch in one of two feeds leaves the box live when everybody believes it dead.',
  source: { text: 'Ratings for alternating current do not carry over to direct current: switch makers’ notes, from memory', grade: "fitters' habit" },
  needs: 'readings',
  explains: ['contact-under-rated'],
  check: (facts) => facts.ofKind('master-switch').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view?.s.flag('acOnly')) return [];
    return [typing(view.part.id, { acOnly: undefined, dcV: facts.plan.vehicle.systemV === 24 ? 28 : undefined }, 'Fit one printed for direct current', false)];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const subject = part(view.part.id);
  const amp = worstA(facts, view);
  if (view.s.flag('acOnly') && amp > LEAST_ARC_A) {
    return [
      found({
        level: 'hazard',
        subject,
        what: `${called(view)} has no rating for direct current, and breaks ${amps(amp)}; from about ${amps(LEAST_ARC_A)} on an arc may stand in it.`,
        todo: 'Fit a switch with a rating printed for direct current at this voltage.',
        figures: [{ label: 'breaks', value: amp, unit: 'A' }],
      }),
    ];
  }
  const left = stillLive(facts, view);
  if (left === null) return amp > 0 || view.s.flag('acOnly') ? [fine(subject)] : [];
  return [
    found({
      level: 'fault',
      subject,
      related: [part(left.view.part.id), part(left.over.part.id)],
      what: `${called(view)} breaks only one of two feeds of ${called(left.view)}: with it open, ${called(left.over)} keeps it live.`,
      todo: 'Break both feeds with a two-pole switch, or put the switch behind the place where they meet.',
    }),
  ];
}

function worstA(facts: Facts, view: PartView): number {
  const amp = (a: number | null): number => Math.abs(a ?? 0);
  const worst = Math.max(amp(facts.designElementA(view.part.id, 'sw')), ...facts.solved.map((r) => amp(facts.elementA(view.part.id, 'sw', r.state, r.band))));
  // Leakage of an open contact is no current.
  return worst < 1e-6 ? 0 : worst;
}

/** What another feed keeps live when this switch is open. Sense, trigger and enable lines are no feeds. */
function stillLive(facts: Facts, view: PartView): { readonly view: PartView; readonly over: PartView } | null {
  const rail = vehicleRail(facts);
  const passes = (key: string): boolean => rail.get(key)?.steps.some((s) => s.linkType === 'contact' && s.through === view) ?? false;
  const behind = facts.loads.filter(({ view: v, load }) => load.label !== 'trigger' && passes(`${v.part.id}.${load.plus}`));
  if (behind.length === 0) return null;
  const around = railOver(facts, FORWARD, (v) => v === view);
  for (const { view: v, load } of behind) {
    const key = `${v.part.id}.${load.plus}`;
    const other = around.get(key);
    if (other && other.tap !== rail.get(key)!.tap && other.tap.key !== rail.get(key)!.tap.key) return { view: v, over: other.tap.view };
    const second = (v.facts.loads ?? []).find((l) => l.label !== 'trigger' && l.plus !== load.plus && around.has(`${v.part.id}.${l.plus}`));
    if (second) return { view: v, over: around.get(`${v.part.id}.${second.plus}`)!.tap.view };
  }
  return null;
}
