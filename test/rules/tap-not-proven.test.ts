import { describe, expect, it } from 'vitest';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKinds } from '../../src/parts/index.ts';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, fused, ground } from './plans.ts';

const RULE = 'tap-not-proven';

describe('joined to a lead that nobody has measured', () => {
  // Fitters' rule: a lead counts as found once it was measured in every key position; its colour is no reading.
  it('measured, or not', () => {
    clean(bench(), RULE);
    const b = bench().set('feed30', { proven: false });
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30'), says: ['nobody has measured'], repairs: 1 });
    const key = bench().set('feed15', { proven: undefined });
    flagged(key, RULE, { level: 'fault', subject: key.id('feed15'), repairs: 1 });
  });

  it('a lead that nothing is joined to is not asked about', () => {
    quiet(fused().set('feed30', { proven: false }).cut('tap'), RULE);
    quiet(ground(), RULE);
  });

  it('every lead of the vehicle is asked about, but not the battery’s post, which one sees', () => {
    const asked = [...partKinds.values()].filter((k) => k.facts(settingsOf(k, {})).tap && k.settings.some((s) => s.key === 'proven'));
    expect(asked.map((k) => k.kind).sort()).toEqual(['feed-15', 'feed-30', 'feed-58', 'feed-75', 'feed-75r', 'feed-reverse']);
  });

  it('waits until one is wiring', () => {
    const b = bench().set('feed30', { proven: false });
    const told = (stage: 'draw' | 'wire') => compute({ ...b.plan, stage }).report.cards.some((c) => c.rule === RULE);
    expect([told('draw'), told('wire')]).toEqual([false, true]);
  });
});
