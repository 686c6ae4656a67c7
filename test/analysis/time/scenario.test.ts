import { describe, expect, it } from 'vitest';
import { buildGraph } from '../../../src/analysis/graph.ts';
import { feedPath } from '../../../src/analysis/time/feedPath.ts';
import { keySpans } from '../../../src/analysis/time/keySpans.ts';
import { defaultScenario, tidyScenario } from '../../../src/analysis/time/scenario.ts';
import { thinned } from '../../../src/analysis/time/thin.ts';
import type { Scenario } from '../../../src/analysis/time/types.ts';
import { emptyPlan } from '../../../src/plan/new.ts';
import { bench, fused } from '../../rules/plans.ts';

const plan = bench().plan;

describe('the plan’s own turn of the key', () => {
  it('gives the computer time to come up, and shows every hold to its end', () => {
    const s = defaultScenario(plan);
    expect(s.keyOffS).toBeGreaterThan(s.startS + 1.11 + 30);
    expect(s.untilS).toBeGreaterThan(s.keyOffS + 99);
    expect(tidyScenario(plan, s)).toEqual(s);
  });
  it('grows with hold, boot and length of cranking', () => {
    const long = bench().set('relay', { holdS: 600 }).set('computer', { bootS: 120 }).vehicle({ dipLevel: 'II' }).plan;
    const s = defaultScenario(long);
    expect(s.keyOffS).toBeGreaterThan(5 + 10.17 + 120);
    expect(s.untilS).toBeGreaterThan(s.keyOffS + 660);
  });
  it('is there for an empty plan', () => {
    expect(defaultScenario(emptyPlan('Empty', {}, 'empty')).untilS).toBeGreaterThan(20);
  });
});

describe('moments that a hand has moved', () => {
  const messy: Scenario = {
    ...defaultScenario(plan),
    keyOnS: 50,
    startS: 1,
    keyOffS: 2,
    doorS: 0,
    keyBackS: 3,
    untilS: 4,
    presses: [{ part: 'p1', atS: 900, forS: 1 }],
  };
  it('are put in order', () => {
    const s = tidyScenario(plan, messy);
    expect(s.keyOnS).toBe(50);
    expect(s.startS).toBeGreaterThan(s.keyOnS + 1);
    // The whole start fits in.
    expect(s.keyOffS).toBeGreaterThan(s.startS + 1.11);
    expect(s.doorS).toBeGreaterThanOrEqual(s.keyOffS);
    expect(s.keyBackS!).toBeGreaterThan(s.keyOffS);
    expect(s.untilS).toBeGreaterThan(s.keyBackS!);
    expect(s.presses).toEqual([]);
  });
  it('a moment that is no number is taken for the first possible', () => {
    expect(tidyScenario(plan, { ...messy, keyOnS: Number.NaN }).keyOnS).toBe(0.5);
  });
});

describe('states of the key', () => {
  const s = defaultScenario(plan);
  const words = (more: Partial<Scenario>, retainS = 600): string[] =>
    keySpans(plan, tidyScenario(plan, { ...s, ...more }), retainS).map((k) => `${k.state} ${Math.round(k.fromS - s.keyOffS)}`);
  it('follow one another without a gap', () => {
    const spans = keySpans(plan, s, 600);
    spans.forEach((k, i) => {
      if (i > 0) expect(k.fromS).toBe(spans[i - 1]!.toS);
    });
    expect(spans.at(-1)!.toS).toBe(s.untilS);
  });
  it('retention ends with the door, else by itself', () => {
    expect(words({ doorS: s.keyOffS + 7, untilS: s.keyOffS + 700 }).slice(-3)).toEqual(['RETAIN 0', 'RETAIN_DOOR 7', 'OFF_ASLEEP 127']);
    expect(words({ doorS: null, untilS: s.keyOffS + 700 }).slice(-2)).toEqual(['RETAIN 0', 'OFF_ASLEEP 600']);
    expect(words({ doorS: s.keyOffS + 50, untilS: s.keyOffS + 700 }, 40).slice(-2)).toEqual(['RETAIN 0', 'OFF_ASLEEP 40']);
  });
  it('the key that comes back passes Accessory again and ends what was going on', () => {
    expect(words({ doorS: s.keyOffS + 30, keyBackS: s.keyOffS + 20 }).slice(-3)).toEqual(['RETAIN 0', 'ACC 20', 'RUN_STOPPED 21']);
  });
});

describe('the way of the supply', () => {
  it('leads from the computer through converter, guard, contact and fuse to the feed, not through trigger or sense', () => {
    const b = bench();
    const graph = buildGraph(b.plan);
    const path = feedPath(graph, graph.views.get(b.id('computer'))!);
    for (const name of ['converter', 'guard', 'relay', 'fuse', 'feed30']) expect(path.has(b.id(name)), name).toBe(true);
    for (const name of ['feed15', 'opto', 'sense', 'ground']) expect(path.has(b.id(name)), name).toBe(false);
  });
  it('is empty for a part that takes nothing', () => {
    const b = fused();
    const graph = buildGraph(b.plan);
    expect(feedPath(graph, graph.views.get(b.id('fuse'))!).size).toBe(0);
  });
});

describe('thinning', () => {
  const n = 50_000;
  const tS = Float64Array.from({ length: n }, (_, k) => k / 100);
  const volts = Float64Array.from({ length: n }, (_, k) => 12 + Math.sin(k / 700));
  volts[31_415] = 4.5;
  volts[2_718] = 26;
  it('keeps the deepest dip and the highest peak with their times', () => {
    const thin = thinned(tS, volts, 1000);
    expect(thin.tS.length).toBeLessThanOrEqual(1004);
    expect(thin.tS[thin.volts.indexOf(4.5)]).toBe(314.15);
    expect(thin.tS[thin.volts.indexOf(26)]).toBe(27.18);
    expect([thin.tS[0], thin.tS.at(-1)]).toEqual([0, (n - 1) / 100]);
    expect([...thin.tS]).toEqual([...thin.tS].sort((a, b) => a - b));
  });
  it('leaves a short trace as it is', () => {
    expect(thinned(tS, volts, n).volts).toBe(volts);
  });
});
