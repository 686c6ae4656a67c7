import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { withLatch } from './plansSense.ts';

const RULE = 'wake-pin-cannot-wake';
const button = (pin: number, more: Record<string, string | number> = {}) =>
  bench()
    .part('button', 'push-button', 'seat')
    .wire('button.1', `computer.${pin}`, { lengthM: 0.2 })
    .wire('button.2', 'converter.0v')
    .set('computer', { wakes: 'gpio3', ...more });

describe('wake button on a pin that cannot wake', () => {
  // Board maker's configuration notes (read): GPIO 3 alone wakes, and not with a power-off pin in use.
  it('on GPIO 3', () => {
    clean(button(5), RULE);
  });

  it('on GPIO 26', () => {
    const b = button(37);
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['GPIO 3'], repairs: 1 });
  });

  it('on GPIO 3 with another pin that says “stopped”', () => {
    const b = button(5, { powerOffPin: 26 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['GPIO 26'], repairs: 2 });
  });

  it('a button that closes a latch brings the supply itself back', () => {
    clean(
      withLatch()
        .part('button', 'push-button', 'seat')
        .wire('latch.in', 'button.1', { lengthM: 0.2 })
        .wire('button.2', 'latch.set2', { lengthM: 0.2 })
        .set('computer', { wakes: 'gpio3', powerOffPin: 26 }),
      RULE,
    );
  });

  it('has nothing to say where power that comes back starts it', () => {
    quiet(bench(), RULE);
  });
});
