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
