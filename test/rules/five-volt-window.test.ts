import { describe, expect, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'five-volt-window';

describe('5 V outside its window', () => {
  it('5.12 V ± 2 % over short wires: above 4.86 V and at most 5.22 V', () => clean(bench(), RULE));

  it('5.3 V ± 2 % may come to 5.41 V', () => {
    const b = bench().set('converter', { setV: 5.3 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), figures: { most: 5.3 * 1.02 }, repairs: 1 });
  });

  it('either side of 5.25 V: 5.14 V + 2 % are 5.243 V, 5.16 V + 2 % are 5.263 V less what the way loses', () => {
    clean(bench().set('converter', { setV: 5.14 }), RULE);
    const b = bench().set('converter', { setV: 5.16 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), figures: { most: 5.26 }, repairs: 1 });
  });

  it('either side of 4.86 V and of 4.75 V, by the set-point', () => {
    const at = (setV: number) => bench().set('converter', { setV });
    const lost = 5.12 * 0.98 - flagged(at(4.9), RULE, { level: 'advice', subject: at(4.9).id('computer') }).figures[0]!.value - (5.12 - 4.9) * 0.98;
    const set = (arrivesV: number): number => (arrivesV + lost) / 0.98;
    clean(at(set(4.865)), RULE);
    flagged(at(set(4.855)), RULE, { level: 'advice', subject: at(5).id('computer') });
    flagged(at(set(4.755)), RULE, { level: 'advice', subject: at(5).id('computer') });
    flagged(at(set(4.745)), RULE, { level: 'fault', subject: at(5).id('computer') });
  });

  it('5.0 V ± 4 % is 4.8 V less the way: its supply watch may warn', () => {
    const b = bench().set('converter', { setV: 5, setTol: 0.04 });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), repairs: 1 });
  });

  it('5.0 V ± 5 %, 2.5 A over 61 mohm: 4.75 V less 0.15 V, a fault; and no set-point can cure it', () => {
    const b = bench().set('converter', { setV: 5, setTol: 0.05 }).cut('four', 'zero9', 'zero14');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), repairs: 1 });
  });

  it('±6 %: too high and too low at once is one finding that says both', () => {
    const b = bench().set('converter', { setV: 5.05, setTol: 0.06 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), says: ['as well'], repairs: 1 });
  });

  it('the vehicle’s own volts on the 5 V pin', () => {
    const b = fused('no converter').part('computer', 'computer', 'dash').wire('fuse.2', 'computer.2', { lengthM: 0.2 }).wire('computer.6', 'ground.31');
    const f = flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), says: ['no converter'] });
    expect(f.todo).toMatch(/^Put a converter/);
  });
});
