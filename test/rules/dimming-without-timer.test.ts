import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'dimming-without-timer';
const dimmed = (pin: number) =>
  bench()
    .part('display', 'touch-display', 'seat')
    .wire('converter.out', 'display.5v', { lengthM: 0.5 })
    .wire('display.0v', 'converter.0v', { lengthM: 0.5 })
    .wire(`computer.${pin}`, 'display.bl', { lengthM: 0.5 }, 'pin');

describe('dimming on a pin without a timer', () => {
  // Board maker's pin functions: timers on GPIO 12, 13, 18, 19.
  it('GPIO 13 has one, GPIO 22 has none', () => {
    clean(dimmed(33), RULE);
    clean(dimmed(32), RULE);
    clean(dimmed(35), RULE);
    const b = dimmed(15);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin'), says: ['GPIO 22', 'no timer'], repairs: 1 });
  });

  it('GPIO 18 has one unless digital sound needs it', () => {
    clean(dimmed(12), RULE);
    const b = dimmed(12).set('computer', { digitalAudio: true });
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin'), says: ['digital sound'], repairs: 1 });
  });

  it('has nothing to say where nothing is dimmed', () => {
    quiet(bench(), RULE);
  });
});
