import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'current-through-screen';

/** The bench with a display that draws so much and hangs on the computer's picture plug. */
function shown(amp: number, back = true): Bench {
  const b = bench()
    .part('display', 'touch-display', 'seat', { typA: amp, peakA: amp })
    .wire('converter.out', 'display.5v', { lengthM: 0.3, areaMm2: 1.5 })
    .wire('computer.video', 'display.video', { lengthM: 1 }, 'picture');
  return back ? b.wire('display.0v', 'converter.0v', { lengthM: 0.3, areaMm2: 1.5 }, 'back') : b;
}

describe('supply current comes home through a screen', () => {
  it('a ground wire of its own', () => {
    clean(shown(0.9), RULE);
  });

  it('1.2 A with the picture lead as the only way home', () => {
    const b = shown(1.2, false);
    flagged(b, RULE, { level: 'hazard', subject: b.id('display'), figures: { 'through the screen': 1.2 }, says: ['no ground wire of its own'], repairs: 1 });
  });

  it('just either side of 0.2 A', () => {
    clean(shown(0.19, false), RULE);
    const b = shown(0.21, false);
    flagged(b, RULE, { level: 'hazard', subject: b.id('display'), repairs: 1 });
  });

  it('a long thin ground wire beside a short lead: most of it takes the screen', () => {
    const b = shown(0.95).wireSet('back', { areaMm2: 0.22, lengthM: 6 }).wireSet('picture', { lengthM: 0.2, areaMm2: 1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('display'), says: ['too thin or too long'] });
  });

  it('above 1 A in one wire alone: a word about what follows when it comes loose', () => {
    clean(shown(0.99), RULE);
    const b = shown(1.2);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('back'), says: ['come loose', 'another'], repairs: 1 });
    clean(b.wire('display.0v', 'converter.0v', { lengthM: 0.3, areaMm2: 1.5 }), RULE);
  });

  it('what is fed by its USB plug may come home there', () => {
    quiet(bench().part('reader', 'usb-device', 'seat').wire('computer.usb1', 'reader.usb', { lengthM: 1 }), RULE);
  });
});
