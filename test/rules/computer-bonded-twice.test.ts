import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'computer-bonded-twice';

/** The bench with a camera whose minus comes home at the converter and whose picture goes to the display. */
function withCamera(settings: Readonly<Record<string, boolean>> = {}): Bench {
  return bench()
    .part('camera', 'camera', 'desk', settings)
    .part('display', 'touch-display', 'seat')
    .wire('guard.out', 'camera.+', { lengthM: 3 })
    .wire('camera.-', 'converter.gnd', { lengthM: 3 })
    .wire('converter.out', 'display.5v', { lengthM: 0.3 })
    .wire('display.0v', 'converter.0v', { lengthM: 0.3 })
    .wire('camera.video', 'display.video', { lengthM: 3 });
}

describe('computer meets the body at more than one place', () => {
  it('once, at the radio', () => {
    clean(bench(), RULE);
    clean(withCamera(), RULE);
  });

  it('case screws as well', () => {
    const b = bench().set('computer', { caseBonded: true });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'joined to the body': 2 }, says: ['ground', 'its own case'], repairs: 1 });
  });

  it('the shell of a camera as well', () => {
    const b = withCamera({ shellBonded: true });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'joined to the body': 2 }, says: ['camera'], repairs: 1 });
  });

  it('case and shell beside the ground wire are three', () => {
    const b = withCamera({ shellBonded: true }).set('computer', { caseBonded: true });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'joined to the body': 3 } });
  });

  it('two ground wires at two studs', () => {
    const b = bench().part('second', 'chassis-ground', 'seat', { place: 'body-stud' }).wire('converter.gnd', 'second.31', { lengthM: 0.3 });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'joined to the body': 2 } });
  });

  it('the post of the battery and its strap are one place', () => {
    clean(bench().cut('return').wire('converter.gnd', 'battery.-', { lengthM: 3.5 }), RULE);
  });

  it('a computer that reaches no ground yet', () => {
    quiet(ground().part('computer', 'computer', 'seat'), RULE);
  });
});
