import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { withSound } from './plansSense.ts';

const RULE = 'dimming-heard';

/** Sound without an isolator, and a display whose brightness input is joined to GPIO 13 (pin 33). */
function dimmed(dimHz: number, b: Bench = withSound().wire('sound.line', 'aux.aux', { lengthM: 2.3 })): Bench {
  return b
    .part('display', 'touch-display', 'seat', { dimHz })
    .set('computer', { gpio13Mode: 'out' })
    .wire('converter.out', 'display.5v', { lengthM: 0.3 })
    .wire('display.0v', 'converter.0v', { lengthM: 0.3 })
    .wire('computer.33', 'display.bl', { lengthM: 0.5 });
}

describe('dimming that can be heard', () => {
  it('1 kHz beside sound on a shared ground', () => {
    const b = dimmed(1000);
    flagged(b, RULE, { level: 'advice', subject: b.id('display'), figures: { pulses: 1000 }, says: ['no isolator'], repairs: 1 });
  });

  it('25 kHz is above all ears; just either side of 100 Hz and 20 kHz', () => {
    clean(dimmed(25_000), RULE);
    clean(dimmed(99), RULE);
    clean(dimmed(20_001), RULE);
    for (const hz of [100, 150, 20_000]) {
      const b = dimmed(hz);
      flagged(b, RULE, { level: 'advice', subject: b.id('display'), repairs: 1 });
    }
  });

  it('an isolator keeps the grounds apart', () => {
    const b = withSound().part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a').wire('isolator.b', 'aux.aux');
    clean(dimmed(1000, b), RULE);
  });

  it('asks for the pulses where it matters', () => {
    unsure(dimmed(0), RULE, 'pulses a second');
    quiet(dimmed(0, bench()), RULE);
  });
});
