import { describe, expect, it } from 'vitest';
import { guideOf, STEPS } from '../../../src/advise/guide/index.ts';
import type { Guide, StepState } from '../../../src/advise/guide/types.ts';
import { leaveOut } from '../../../src/advise/guide/wishes.ts';
import { computeResults } from '../../../src/advise/index.ts';
import { apply, invert } from '../../../src/plan/apply.ts';
import { removeItems } from '../../../src/plan/edits.ts';
import { emptyPlan } from '../../../src/plan/new.ts';
import type { Edit, Plan } from '../../../src/plan/types.ts';
import { ruleById } from '../../../src/rules/index.ts';
import { jobOf } from '../../../src/sheet/jobLists.ts';
import { type Answers, NO_ANSWERS, planFrom } from '../../../src/ui/answers.ts';
import { demoPlan } from '../../bench/largePlan.ts';
import { deepFreeze } from '../../plan/laws.ts';

const guide = (plan: Plan, at: string | null = null): Guide => {
  const results = computeResults(plan);
  return guideOf(plan, results, jobOf(plan, results), at);
};
const edited = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};
const step = (g: Guide, id: string): StepState => g.steps.find((s) => s.step.id === id)!;
const said = (s: StepState | null): string => `${s?.step.id}: ${s?.checks.flatMap((c) => (c.met ? [] : [c.text])).join(' ')}`;

/** Takes what is offered until `until` is the step to do, or nothing is offered any more; remembers every plan on the way. */
function walk(from: Plan, until: string | null, most: number): { plan: Plan; guide: Guide; way: Plan[] } {
  let plan = from;
  let now = guide(plan);
  const way = [plan];
  for (let n = 0; now.current && now.current.step.id !== until; n++) {
    if (n === most || !now.current.offer) throw new Error(`stands at ${said(now.current)}`);
    plan = edited(plan, now.current.offer.edit);
    way.push(plan);
    now = guide(plan);
  }
  return { plan, guide: now, way };
}

const STARTS: readonly (readonly [string, Partial<Answers>])[] = [
  ['every question left open', {}],
  [
    'two leads found, under the seat',
    { systemV: 12, batteryAh: 70, computerAt: 'under-seat', displayAt: 'dash', stopStart: 'no', throughStart: 'no', leads: ['30', '15'] },
  ],
  ['24 V', { systemV: 24, batteryAh: 140, computerAt: 'console', displayAt: 'dash', stopStart: 'no', throughStart: 'no' }],
];

describe('the guided build', () => {
  it.each(STARTS)('goes from a bare vehicle to a drawn build by its own offers: %s', (_name, answers) => {
    const { plan, guide: at } = walk(planFrom({ ...NO_ANSWERS, ...answers }), 'find', 30);
    const { report, analysis } = computeResults(plan);
    expect(report.cards.filter((c) => c.level !== 'advice').map((c) => c.title)).toEqual([]);
    expect(report.loose).toEqual({});
    expect(analysis.readings.filter((r) => r.status !== 'solved')).toEqual([]);
    expect(at.steps.filter((s) => s.step.stage === 'draw' && !s.done).map(said)).toEqual([]);
    // The switch must be heard by the computer, not only by the relay: a build that loses power unasked stops like one whose plug is pulled.
    const master = Object.values(plan.parts).find((p) => p.kind === 'master-switch')!;
    const behind = Object.values(plan.wires).filter((w) => [w.from, w.to].some((e) => e.part === master.id && e.terminal === '2'));
    expect(behind).toHaveLength(2);
    for (const kind of ['computer', 'touch-display', 'usb-sound', 'optocoupler', 'push-button'])
      expect(Object.values(plan.parts).map((p) => p.kind)).toContain(kind);
  });

  it('counts nothing as done where nothing is drawn', () => {
    expect(guide(planFrom(NO_ANSWERS)).done).toBe(0);
  });

  it('starts from a plan with nothing in it, too', () => {
    const { guide: at } = walk(emptyPlan('nothing', { centralClamping: 'yes' }), 'find', 30);
    expect(at.steps.filter((s) => s.step.stage === 'draw' && !s.done).map(said)).toEqual([]);
  });
});

describe('whether a step is done is read from the plan', () => {
  const { plan, way } = walk(planFrom({ ...NO_ANSWERS, ...STARTS[1]![1] }), 'find', 30);

  it('the fuse at the tap taken out opens the feed and the hold again, and the offers close them', () => {
    const fuse = Object.values(plan.parts).find((p) => p.kind === 'blade-fuse')!;
    const broken = edited(plan, removeItems(plan, [fuse.id]));
    const now = guide(broken);
    expect(now.current?.step.id).toBe('constant-feed');
    expect(step(now, 'hold').done).toBe(false);
    expect(step(now, 'computer').done).toBe(false);
    const again = walk(broken, 'find', 4);
    expect(computeResults(again.plan).report.cards.filter((c) => c.level !== 'advice')).toEqual([]);
  });

  it('a rule speaks for a step although its wiring stands: the fuse moved a metre from the tap', () => {
    const tap = Object.values(plan.wires).find((w) => plan.parts[w.from.part]?.kind === 'feed-30')!;
    const far = { ...plan, wires: { ...plan.wires, [tap.id]: { ...tap, lengthM: 1 } } };
    const feed = guide(far).current;
    expect(feed?.step.id).toBe('constant-feed');
    expect(feed?.checks.find((c) => !c.met)?.rule).toBe(ruleById.get('fuse-far-from-tap')?.title);
    expect(feed?.about.parts.length).toBeGreaterThan(0);
  });

  it('a step undone is open again, one by one back to the start', () => {
    let now = plan;
    for (let i = way.length - 1; i > 0; i--) {
      const before = guide(way[i - 1]!);
      const edit = before.current?.offer?.edit;
      now = edited(now, invert(edit!));
      expect(guide(now).current?.step.id).toBe(before.current?.step.id);
    }
  });

  it('a thing left out is not asked for, counts for nothing, and can be taken back', () => {
    const bare = planFrom(NO_ANSWERS);
    const out = edited(bare, leaveOut(bare, 'sound', true));
    expect(step(guide(out), 'sound').leftOut).toBe(true);
    expect(guide(out).total).toBe(guide(bare).total - 1);
    expect(step(guide(edited(out, leaveOut(out, 'sound', false))), 'sound').leftOut).toBe(false);
    // On the plan after all.
    expect(step(guide(edited(plan, leaveOut(plan, 'sound', true))), 'sound')).toMatchObject({ done: true, leftOut: false });
  });

  it('any step may be read, whatever stands open before it', () => {
    expect(guide(planFrom(NO_ANSWERS), 'buy').current?.step.id).toBe('buy');
  });

  it('a finished build by another hand is recognised: the demo', () => {
    const now = guide(deepFreeze(structuredClone(demoPlan)));
    expect(now.steps.filter((s) => s.step.stage === 'draw' && !s.done).map((s) => s.step.id)).toEqual(['camera']);
  });
});

describe('what comes after drawing', () => {
  it('is closed line by line, and in the end every step is done', () => {
    let plan = walk(planFrom({ ...NO_ANSWERS, ...STARTS[1]![1], without: ['sound', 'camera', 'buttons'] }), 'find', 30).plan;
    let results = computeResults(plan);
    let end = guideOf(plan, results, jobOf(plan, results));
    for (let n = 0; end.current && n < 400; n++) {
      const { id } = end.current.step;
      plan = edited(plan, end.current.offer!.edit);
      end = guideOf(plan, results, jobOf(plan, results));
      // Ticks and fitting change nothing electrical, facts of the leads do; each stage begins with figures of its own.
      if (end.current?.step.id === id && id !== 'find') continue;
      results = computeResults(plan);
      end = guideOf(plan, results, jobOf(plan, results));
    }
    expect(end.current).toBeNull();
    expect(end.done).toBe(end.total);
    expect(computeResults(plan).report.cards.filter((c) => c.level !== 'advice')).toEqual([]);
  }, 120_000);
});

it('steps name rules that exist, and speak plainly', () => {
  expect(new Set(STEPS.map((s) => s.id)).size).toBe(STEPS.length);
  for (const s of STEPS) {
    for (const rule of s.rules) expect(ruleById.has(rule), `${s.id}: ${rule}`).toBe(true);
    for (const text of [s.todo, s.why, s.byHand]) expect(text, s.id).toMatch(/^\p{Lu}.*\.$/u);
    expect(`${s.title} ${s.todo} ${s.why} ${s.byHand}`).not.toMatch(/\bsafe\b/i);
  }
});
