import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'length-unlikely';

describe('length that cannot be right', () => {
  it('the bench', () => clean(bench(), RULE));

  it('3 m typed on a way of 3.6 m: bay to dash 1.4 m, dash to seat 2.2 m', () => {
    const b = ground().part('a', 'splice', 'bay').part('b', 'splice', 'seat').wire('a.s', 'b.s', { lengthM: 3 }, 'short');
    flagged(b, RULE, { level: 'advice', subject: b.wireId('short'), figures: { wire: 3, runs: 3.6 }, repairs: 1 });
  });

  it('either side of the run less 5 %: 2.2 m × 0.95 = 2.09 m', () => {
    clean(bench().wireSet('feed', { lengthM: 2.1 }), RULE);
    const b = bench().wireSet('feed', { lengthM: 2.08 });
    flagged(b, RULE, { level: 'advice', subject: b.wireId('feed'), repairs: 1 });
  });

  it('no run and no length', () => {
    const b = bench().part('far', 'splice', 'desk').wire('fuse.2', 'far.s', {}, 'far');
    b.plan = { ...b.plan, runs: Object.fromEntries(Object.entries(b.plan.runs).filter(([, r]) => r.b !== 'z4')) };
    flagged(b, RULE, { level: 'advice', subject: b.wireId('far'), says: ['no run'] });
  });

  it('says nothing without a wire of ours', () => quiet(ground(), RULE));
});
