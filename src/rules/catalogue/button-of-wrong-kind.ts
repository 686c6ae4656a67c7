import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { WAKE_GPIO } from '../../trade/header.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { moversOf, type PinUse, pinName, pinUses } from '../pins.ts';
import { converters, railOver, vehicleRail } from '../rails.ts';
import { grounded, netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('button-of-wrong-kind', 'J6');

export const buttonOfWrongKind = defineRule({
  id: 'button-of-wrong-kind',
  code: 'J6',
  level: 'fault',
  title: 'Button springs back where it should stay, or the reverse',
  why: 'A button that says “stop” must spring back: one that stays in stops the computer again at each start. What says “on” must stay: one that springs back switches off when the thumb leaves it.',
  source: { text: 'Function of each contact; common practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => facts.ofKind('push-button').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    const latching = view.s.flag('latching');
    return [
      {
        title: latching ? 'Take a button that springs back' : 'Take a button that stays in',
        safe: true,
        edit: (plan) => setSettings(plan, view.part.id, { latching: latching ? undefined : true }),
      },
    ];
  },
});

/** A job of a button that settles of which kind it must be. */
interface Job {
  readonly latching: boolean;
  readonly why: string;
  readonly related: readonly PartView[];
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const jobs = jobsOf(facts, view);
  if (jobs.length === 0) return [];
  const subject = part(view.part.id);
  const wrong = jobs.find((j) => j.latching !== view.s.flag('latching'));
  if (!wrong) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      related: wrong.related.map((v) => part(v.part.id)),
      what: `${called(view)} ${wrong.latching ? 'springs back' : 'stays in when pressed'}, and ${wrong.why}.`,
      todo: wrong.latching ? 'Take a switch that stays where it is put.' : 'Take a button that springs back.',
    }),
  ];
}

function jobsOf(facts: Facts, view: PartView): Job[] {
  const jobs: Job[] = [];
  for (const use of pinUses(facts)) if (moversOf(facts, use).includes(view)) jobs.push(...pinJobs(facts, use, view));
  const nets = [netAt(facts, view, '1'), netAt(facts, view, '2')];
  for (const latch of facts.ofKind('hold-latch')) {
    if (['set', 'set2'].some((t) => facts.isWired(`${latch.part.id}.${t}`) && nets.includes(netAt(facts, latch, t)))) {
      jobs.push({ latching: false, why: `${called(latch)} could never open while it is in`, related: [latch] });
    }
  }
  // Only a button that lies in the supply itself can cut a converter off; tracing without it is dear.
  const rail = vehicleRail(facts);
  if (!['1', '2'].every((t) => rail.has(`${view.part.id}.${t}`))) return jobs;
  const without = railOver(facts, THROUGH, (v) => v === view);
  const fed = converters(facts).filter((c) => rail.has(c.inKey) && !without.has(c.inKey));
  if (fed.length > 0) jobs.push({ latching: true, why: `${called(fed[0]!.view)} is fed only while it is held`, related: fed.map((c) => c.view) });
  return jobs;
}

const THROUGH = ['fuse', 'contact', 'conductor', 'diode'];

function pinJobs(facts: Facts, use: PinUse, view: PartView): Job[] {
  const s = use.computer.s;
  if (use.gpio === WAKE_GPIO && s.str('wakes') === 'gpio3') {
    return [{ latching: false, why: `${pinName(use)}, which starts the computer, would be held for ever`, related: [use.computer] }];
  }
  if (use.gpio !== Math.round(s.num('senseGpio')) || use.gpio === 0) return [];
  const lowWhenIn = ['1', '2'].some((t) => grounded(facts, netAt(facts, view, t)));
  const inMeansOn = lowWhenIn === (s.str('senseActive') === 'low-when-on');
  return [
    inMeansOn
      ? { latching: true, why: `at ${pinName(use)} the computer takes letting go for key-off`, related: [use.computer] }
      : { latching: false, why: `at ${pinName(use)} the computer would stop again at each start`, related: [use.computer] },
  ];
}
