import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'bounce-not-filtered';
const button = (inputFilterS: number): Bench =>
  bench().part('button', 'push-button', 'seat').wire('button.1', 'computer.29').wire('button.2', 'computer.30').set('computer', { inputFilterS });

describe('bouncing of buttons is not handled', () => {
  it('0 ms: flagged; 20 ms: passed', () => {
    const b = button(0);
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { waits: 0 }, repairs: 1 });
    clean(button(0.02), RULE);
  });

  it('either side of 10 ms', () => {
    clean(button(0.01), RULE);
    const b = button(0.009);
    flagged(b, RULE, { level: 'advice', subject: b.id('computer') });
  });

  // 10 kΩ × 2.2 µF × 0.8 = 17 ms beside a pull of 33 kΩ at the least; 1 µF gives 6 ms.
  it('a capacitor at the button does it too', () => {
    const filtered = (farad: number) =>
      button(0)
        .part('up', 'resistor', 'seat', { ohm: 10_000 })
        .part('c', 'capacitor', 'seat', { farad, ratedV: 50 })
        .wire('up.1', 'button.1')
        .wire('up.2', 'computer.17')
        .wire('c.+', 'button.1')
        .wire('c.-', 'button.2');
    clean(filtered(2.2e-6), RULE);
    const b = filtered(1e-6);
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), repairs: 1 });
  });

  it('a switch bounces like a button', () => {
    const watched = (inputFilterS: number): Bench =>
      bench().part('switch', 'master-switch', 'seat').wire('switch.1', 'computer.29').wire('switch.2', 'computer.30').set('computer', { inputFilterS });
    const b = watched(0);
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), says: ['switch'], repairs: 1 });
    clean(watched(0.01), RULE);
  });

  // Relay contacts come to rest later: 20 ms (common practice).
  it('a relay’s contact: either side of 20 ms', () => {
    const watched = (inputFilterS: number): Bench =>
      bench()
        .part('k', 'relay', 'seat', { suppression: 'diode' })
        .wire('senseFuse.2', 'k.86', { lengthM: 2 })
        .wire('k.85', 'ground.31', { lengthM: 2 })
        .wire('k.30', 'computer.29')
        .wire('k.87', 'computer.30')
        .set('computer', { inputFilterS, gpio5Mode: 'in-up' });
    const b = watched(0.019);
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), says: ['k', '20 ms'], repairs: 1 });
    clean(watched(0.02), RULE);
  });

  it('without buttons there is nothing to say', () => {
    quiet(bench(), RULE);
  });
});
