import { describe, expect, it } from 'vitest';
import { computeResults, repairsFor } from '../../src/advise/index.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan, largePlan } from '../bench/largePlan.ts';
import { deepFreeze } from '../plan/laws.ts';
import { bench, ground } from '../rules/plans.ts';

describe('results', () => {
  it('are pure: a deep-frozen plan is enough, and gives the same every time', () => {
    const plan = deepFreeze(structuredClone(demoPlan));
    const first = computeResults(plan);
    expect(computeResults(plan)).toEqual(first);
    expect(computeResults(structuredClone(plan) as Plan)).toEqual(first);
  });

  it('cross to another thread unchanged', () => {
    const results = computeResults(demoPlan);
    const crossed = structuredClone(results);
    expect(crossed).toEqual(results);
    expect(crossed.analysis.readings[0]!.terminalV).toBeInstanceOf(Float64Array);
  });

  it('do not know what was computed before them', () => {
    const cold = computeResults(structuredClone(demoPlan) as Plan);
    for (const other of [bench().plan, largePlan(60), ground().plan, { ...demoPlan, vehicle: { ...demoPlan.vehicle, systemV: 24 as const } }])
      computeResults(other);
    expect(computeResults(demoPlan)).toEqual(cold);
  });

  it('are there for a plan with nothing in it', () => {
    const { analysis, report, filled } = computeResults(ground().without('battery', 'strap', 'ground').plan);
    expect(Object.keys(filled.parts)).toEqual([]);
    expect(analysis.readings.every((r) => r.status === 'solved')).toBe(true);
    expect(report.findings).toEqual([]);
    expect(report.crashed).toEqual([]);
  });

  it('give the demo no hazard, and no reading that is not solved', () => {
    const { analysis, report } = computeResults(demoPlan);
    expect(report.crashed).toEqual([]);
    expect(analysis.readings.filter((r) => r.trouble !== null)).toEqual([]);
  });

  it('name a repair’s edit as one, and offer none for a plan where it no longer fits', () => {
    const b = bench('no fuse').without('fuse').wire('feed30.out', 'relay.30', { lengthM: 2.2 }, 'bare');
    const results = computeResults(b.plan);
    const finding = results.report.findings.find((f) => f.rule === 'tap-without-fuse')!;
    const offers = repairsFor(b.plan, results, finding);
    expect(offers.length).toBeGreaterThan(0);
    for (const offer of offers) expect(offer.edit).toMatchObject({ intent: 'repair.apply', label: offer.title });
    expect(repairsFor(b.cut('bare').plan, results, finding)).toEqual([]);
  });
});

describe('the report', () => {
  it('lets what is unfinished wait, and counts it on the part instead', () => {
    const b = ground('loose').part('converter', 'step-down', 'seat');
    const { report } = computeResults(b.plan);
    expect(report.findings.filter((f) => f.subject.id === b.id('converter'))).toEqual([]);
    expect(report.todo[b.id('converter')]![0]).toMatch(/^not joined yet: in, gnd/);
  });

  it('puts hazards first and the same rule on many subjects on one card', () => {
    const b = ground('many');
    for (const n of [1, 2, 3]) {
      b.part(`feed${n}`, 'feed-30', 'dash', {}, { owner: 'vehicle' })
        .part(`load${n}`, 'camera', 'desk')
        .wire(`feed${n}.out`, `load${n}.+`)
        .wire(`load${n}.-`, 'ground.31');
    }
    const { report } = computeResults(b.plan);
    const bare = report.cards.filter((c) => c.rule === 'tap-without-fuse');
    expect(bare).toHaveLength(1);
    expect(bare[0]!.findings).toHaveLength(3);
    const rank = { hazard: 0, fault: 1, advice: 2 };
    const levels = report.cards.map((c) => rank[c.level]);
    expect(levels).toEqual([...levels].sort((x, y) => x - y));
    // Every finding is on a card, once; what matters only later waits on its own.
    const shown = [...report.cards, ...report.waiting].flatMap((c) => [...c.findings, ...c.folded]);
    expect(shown).toHaveLength(report.findings.length);
    expect(new Set(shown).size).toBe(shown.length);
  });

  it('keeps a card that was set aside apart, with its reason', () => {
    const b = ground('aside')
      .part('feed', 'feed-30', 'dash', {}, { owner: 'vehicle' })
      .part('load', 'camera', 'desk')
      .wire('feed.out', 'load.+')
      .wire('load.-', 'ground.31');
    const card = computeResults(b.plan).report.cards.find((c) => c.rule === 'tap-without-fuse')!;
    const { report } = computeResults({ ...b.plan, setAside: { [card.key]: 'fuse comes next week' } });
    expect(report.cards.some((c) => c.key === card.key)).toBe(false);
    expect(report.aside).toEqual([{ card: expect.objectContaining({ key: card.key }), reason: 'fuse comes next week' }]);
    expect(report.findings.length).toBe(computeResults(b.plan).report.findings.length);
  });
});
