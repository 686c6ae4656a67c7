import { describe, expect, it } from 'vitest';
import { clean, compute, findingsOf, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'pin-over-voltage';

describe('too much voltage at a pin', () => {
  it('pulled to 3.3 V', () => {
    clean(bench(), RULE);
  });

  it('12 kΩ from 5 V: the guard diode holds it near 3.9 V, which is too much', () => {
    const b = bench().part('r', 'resistor', 'seat', { ohm: 12_000 }).wire('converter.out', 'r.1').wire('r.2', 'computer.29', {}, 'pin5');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), says: ['GPIO 5'], figures: { 'pin stands': 3.6, 'at the pin': 3.85 }, repairs: 1 });
  });

  it('1.2 kΩ over 2 kΩ from 5 V: 3.2 V', () => {
    const b = bench()
      .part('top', 'resistor', 'seat', { ohm: 1200 })
      .part('low', 'resistor', 'seat', { ohm: 2000 })
      .wire('converter.out', 'top.1')
      .wire('top.2', 'computer.29')
      .wire('low.1', 'top.2')
      .wire('low.2', 'computer.39');
    clean(b, RULE);
  });

  /** 5 V over 15 kΩ, divided by so much to 0 V. */
  const divided = (lowOhm: number, lowTol?: number) =>
    bench()
      .part('top', 'resistor', 'seat', { ohm: 15_000 })
      .part('low', 'resistor', 'seat', { ohm: lowOhm, ...(lowTol === undefined ? {} : { tol: lowTol }) })
      .wire('converter.out', 'top.1')
      .wire('top.2', 'computer.29', {}, 'pin5')
      .wire('low.1', 'top.2')
      .wire('low.2', 'computer.39');

  // Worked by hand: 5.12 V + 5 %, the upper resistor 5 % low, the lower 5 % high: 5.376 x 29.4 / (29.4 + 14.25) = 3.62 V with 28 kΩ,
  // 3.58 V with 27 kΩ; nominally 3.33 V and 3.29 V. Resistors of 1 % make 3.53 V of the former.
  it('a divider is judged with its resistors and the 5 V at their unkind ends, and says so', () => {
    const b = divided(28_000);
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.wireId('pin5'),
      figures: { 'at the pin': 3.621 },
      says: ['3.62 V', 'top 5 % low', 'low 5 % high'],
      repairs: 1,
    });
    clean(divided(27_000), RULE);
    clean(divided(28_000, 0.01).set('top', { tol: 0.01 }), RULE);
  });

  it('two resistors in a row divide like one', () => {
    const row = (lowOhm: number) =>
      divided(lowOhm)
        .without('top')
        .part('one', 'resistor', 'seat', { ohm: 7500 })
        .part('two', 'resistor', 'seat', { ohm: 7500 })
        .wire('converter.out', 'one.1')
        .wire('one.2', 'two.1')
        .wire('two.2', 'computer.29', {}, 'pin5')
        .wire('low.1', 'two.2');
    const b = row(28_000);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), figures: { 'at the pin': 3.621 } });
    clean(row(27_000), RULE);
  });

  it('a pull-up to 3.3 V with a tolerance lifts nothing', () => {
    clean(bench().set('pull', { tol: 0.2 }), RULE);
  });

  it('a pin that only follows the lifted 3.3 V is not blamed', () => {
    // 5 V over 5 Ω push more through the guard diode than the board takes from its 3.3 V.
    const b = bench()
      .part('r', 'resistor', 'seat', { ohm: 5 })
      .wire('converter.out', 'r.1')
      .wire('r.2', 'computer.29', {}, 'pin5')
      .part('button', 'push-button', 'desk')
      .wire('button.1', 'computer.31', {}, 'pin6')
      .wire('button.2', 'converter.0v');
    const found = findingsOf(compute(b), RULE).map((f) => f.subject.id);
    expect(found).toEqual([b.wireId('pin5')]);
  });

  it('has nothing to say without a wired pin', () => {
    quiet(ground(), RULE);
  });
});
