import { describe, expect, it } from 'vitest';
import { waitingByStage } from '../../src/advise/headline.ts';
import { computeResults, repairsFor } from '../../src/advise/index.ts';
import { wholeReport } from '../../src/advise/report.ts';
import { apply, merge } from '../../src/plan/apply.ts';
import { setFitted, setStage, setVehicle } from '../../src/plan/edits.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { ruleById, rules } from '../../src/rules/index.ts';
import { demoPlan } from '../bench/largePlan.ts';
import { bench } from '../rules/plans.ts';

const edited = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};

/** A tap whose strands are twisted and taped: a fault of the joint, from the wiring on. */
const twisted = bench('twisted').set('feed30', { joint: 'twist' }).plan;

describe('findings by stage of the job', () => {
  it('a joint waits until somebody is wiring, and is counted quietly until then', () => {
    const drawing = computeResults(twisted).report;
    expect(drawing.cards.map((c) => c.rule)).not.toContain('tap-joint-wrong');
    expect(drawing.waiting.map((c) => c.rule)).toEqual(['tap-joint-wrong']);
    expect(waitingByStage(drawing)).toEqual([{ stage: 'wire', cards: 1 }]);
    for (const stage of ['find', 'draw', 'buy'] as const) expect(computeResults({ ...twisted, stage }).report.waiting).toHaveLength(1);
    for (const stage of ['wire', 'test', 'software', 'keep'] as const) {
      const { cards, waiting } = computeResults({ ...twisted, stage }).report;
      expect(cards.map((c) => c.rule)).toContain('tap-joint-wrong');
      expect(waiting).toEqual([]);
    }
  });

  it('all that is found stands among the findings at every stage, and paper shows it', () => {
    const { report } = computeResults(twisted);
    expect(report.findings.map((f) => f.rule)).toContain('tap-joint-wrong');
    const whole = wholeReport(report);
    expect(whole.waiting).toEqual([]);
    expect(whole.cards.map((c) => c.rule)).toContain('tap-joint-wrong');
    const rank = { hazard: 0, fault: 1, advice: 2 };
    const levels = whole.cards.map((c) => rank[c.level]);
    expect(levels).toEqual([...levels].sort((x, y) => x - y));
  });

  it('no rule that can find a hazard waits, and only few rules wait at all', () => {
    const late = rules.filter((r) => r.stage !== undefined);
    expect(late.filter((r) => r.level === 'hazard')).toEqual([]);
    expect(late.length).toBeGreaterThan(0);
    expect(late.length).toBeLessThan(rules.length / 10);
  });

  it('the examples of rules that wait are asked about with a stage of their own', () => {
    for (const rule of ['tap-joint-wrong', 'storage-not-guarded', 'dimming-heard', 'sound-too-loud']) expect(ruleById.get(rule)?.stage, rule).toBeDefined();
  });
});

describe('what is fitted', () => {
  const { filled } = computeResults(demoPlan);
  const build = { parts: Object.values(demoPlan.parts), wires: Object.values(demoPlan.wires) };
  const all = {
    parts: build.parts.filter((p) => p.owner === 'build').map((p) => p.id),
    wires: build.wires.filter((w) => w.owner === 'build').map((w) => w.id),
  };
  const fitted = edited(demoPlan, setFitted(demoPlan, filled, all, true));

  it('changes no value at the moment of the tick', () => {
    const now = computeResults(fitted).filled;
    for (const id of all.wires) expect({ ...now.wires[id], fitted: undefined }).toEqual({ ...filled.wires[id], fitted: undefined });
    for (const id of all.parts) expect(now.parts[id]!.settings).toEqual(filled.parts[id]!.settings);
  });

  it('keeps its values when the plan changes round it', () => {
    // Twice the volts: automatic sizes, fuses and resistors of the plan that is not fitted move.
    const change = setVehicle(demoPlan, { systemV: 24 });
    const loose = computeResults(edited(demoPlan, change)).filled;
    const kept = computeResults(edited(fitted, setVehicle(fitted, { systemV: 24 }))).filled;
    const values = (p: Plan) =>
      JSON.stringify([all.parts.map((id) => p.parts[id]!.settings), all.wires.map((id) => [p.wires[id]!.areaMm2, p.wires[id]!.colour])]);
    expect(values(loose)).not.toBe(values(filled));
    expect(values(kept)).toBe(values(filled));
  });

  it('is asked about before a repair changes it', () => {
    // Shorter than the runs it must go over; the repair frees the length, which is done without asking.
    const b = bench('short').wireSet('feed', { lengthM: 0.4 });
    const offersOf = (plan: Plan) => {
      const results = computeResults(plan);
      return results.report.findings.filter((f) => f.subject.id === b.wireId('feed')).flatMap((f) => repairsFor(plan, results, f));
    };
    const plain = offersOf(b.plan).filter((o) => o.safe);
    expect(plain.length).toBeGreaterThan(0);
    expect(plain.every((o) => o.fitted.length === 0)).toBe(true);
    const now = computeResults(b.plan).filled;
    const held = edited(b.plan, setFitted(b.plan, now, { parts: [], wires: [b.wireId('feed')] }, true));
    const asked = offersOf(held).filter((o) => o.edit.changes.some((c) => c.table === 'wires' && c.id === b.wireId('feed')));
    expect(asked.length).toBeGreaterThan(0);
    for (const offer of asked) {
      expect(offer.safe, offer.title).toBe(false);
      expect(offer.fitted.join()).toMatch(/^wire W\d+$/);
    }
  });

  it('stage and ticks travel in one edit with other changes of the head', () => {
    const both = merge(setStage(demoPlan, 'wire'), setVehicle(edited(demoPlan, setStage(demoPlan, 'wire')), { name: 'Van' }));
    const next = edited(demoPlan, both);
    expect([next.stage, next.vehicle.name]).toEqual(['wire', 'Van']);
  });
});
