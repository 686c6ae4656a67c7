import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { withSound } from './plansSense.ts';

const RULE = 'sound-too-loud';
const joined = () => withSound().wire('sound.line', 'aux.aux', { lengthM: 2.3 });

describe('sound is louder than the input takes', () => {
  it('1 V into an input for 2 V', () => {
    clean(joined(), RULE);
  });

  it('2 V of a headphone output into an input for 0.5 V: four times as much', () => {
    const b = joined().set('sound', { outV: 2 }).set('aux', { maxV: 0.5 });
    flagged(b, RULE, { level: 'advice', subject: b.id('aux'), figures: { arrives: 2, takes: 0.5 }, says: ['4 times'], repairs: 1 });
  });

  it('just either side of 1.2 times', () => {
    clean(joined().set('sound', { outV: 0.59 }).set('aux', { maxV: 0.5 }), RULE);
    const b = joined().set('sound', { outV: 0.61 }).set('aux', { maxV: 0.5 });
    flagged(b, RULE, { level: 'advice', subject: b.id('aux'), repairs: 1 });
  });

  it('an isolator and a ready-made lead pass it on as it is', () => {
    const b = withSound()
      .set('sound', { outV: 2 })
      .set('aux', { maxV: 0.5 })
      .part('isolator', 'audio-isolator', 'seat')
      .part('lead', 'audio-lead', 'seat')
      .wire('sound.line', 'isolator.a')
      .wire('isolator.b', 'lead.a')
      .wire('lead.b', 'aux.aux');
    flagged(b, RULE, { level: 'advice', subject: b.id('aux'), figures: { arrives: 2 }, repairs: 1 });
  });

  // Worked by hand: 2 V x 3.3 / (10 + 3.3) = 0.50 V; with 5 % resistors at their worst 2 x 3.465 / (9.5 + 3.465) = 0.534 V.
  it('a divider of 10 kΩ and 3.3 kΩ brings it down to 0.5 V', () => {
    const divided = (ohm: number) =>
      withSound()
        .set('sound', { outV: 2 })
        .set('aux', { maxV: 0.5 })
        .part('r1', 'resistor', 'seat', { ohm: 10_000, tol: 0.05 })
        .part('r2', 'resistor', 'seat', { ohm, tol: 0.05 })
        .wire('sound.line', 'r1.1')
        .wire('r1.2', 'aux.aux')
        .wire('r2.1', 'r1.2')
        .wire('r2.2', 'converter.0v');
    clean(divided(3300), RULE);
    const b = divided(4700);
    // 2 x 4.935 / (9.5 + 4.935) = 0.684 V.
    flagged(b, RULE, { level: 'advice', subject: b.id('aux'), figures: { arrives: 0.684 }, repairs: 1 });
  });

  it('has nothing to say without a sound lead', () => {
    quiet(bench(), RULE);
    quiet(withSound(), RULE);
  });
});
