import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { withSound } from './plansSense.ts';

const RULE = 'converter-input-unfiltered';
const copper = () => withSound().wire('sound.line', 'aux.aux', { lengthM: 2 });

describe('vehicle ripple reaches the converter unfiltered, or a filter rings', () => {
  it('sound over copper and no choke', () => {
    const b = copper();
    flagged(b, RULE, { level: 'advice', subject: b.id('converter'), says: ['choke'], repairs: 1 });
  });

  /** 22 µH ahead of the converter, 220 µF behind it with a series resistance: √(L/C) = 0.316 Ω. */
  const filtered = (esrOhm: number) => copper().set('bulk', { farad: 220e-6, esrOhm }).into('toConverter', 'choke', 'choke', ['1', '2'], { henry: 22e-6 });

  it('22 µH and 220 µF, damped by 0.33 Ω', () => {
    clean(filtered(0.33), RULE);
  });

  it('half to twice √(L/C) is damped', () => {
    clean(filtered(0.17), RULE);
    clean(filtered(0.6), RULE);
    const b = filtered(0.1);
    flagged(b, RULE, { level: 'advice', subject: b.id('converter'), figures: { '√(L/C)': 0.316 }, repairs: 1 });
  });

  it('too small a choke is none, and no capacitor behind it neither', () => {
    const b = filtered(0.33).set('choke', { henry: 4.7e-6 });
    flagged(b, RULE, { level: 'advice', subject: b.id('converter') });
    const bare = filtered(0.33).set('bulk', { farad: 47e-6 });
    flagged(bare, RULE, { level: 'advice', subject: bare.id('converter') });
  });

  it('has nothing to say where no sound goes to the radio over copper', () => {
    quiet(bench(), RULE);
    quiet(
      withSound().part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a', { lengthM: 0.2 }).wire('isolator.b', 'aux.aux', { lengthM: 2 }),
      RULE,
    );
  });
});
