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

  // √(22 µH / 220 µF) = 0.3162 Ω: half of it is 0.158, twice 0.632.
  it('just either side of half and twice √(L/C)', () => {
    clean(filtered(0.159), RULE);
    clean(filtered(0.631), RULE);
    for (const esrOhm of [0.157, 0.634]) {
      const b = filtered(esrOhm);
      flagged(b, RULE, { level: 'advice', subject: b.id('converter'), says: ['ring'], repairs: 1 });
    }
  });

  it('just either side of 10 µH and 100 µF', () => {
    clean(filtered(0.33).set('choke', { henry: 10e-6 }), RULE);
    clean(filtered(0.33).set('bulk', { farad: 100e-6 }), RULE);
    for (const b of [filtered(0.33).set('choke', { henry: 9.9e-6 }), filtered(0.33).set('bulk', { farad: 99e-6 })]) {
      flagged(b, RULE, { level: 'advice', subject: b.id('converter'), says: ['sound'] });
    }
  });

  it('without sound a ringing filter is told of, half a filter is not', () => {
    const silent = (esrOhm: number, farad: number) =>
      bench().set('bulk', { farad, esrOhm }).into('toConverter', 'choke', 'choke', ['1', '2'], { henry: 22e-6 });
    const b = silent(0.05, 220e-6);
    flagged(b, RULE, { level: 'advice', subject: b.id('converter'), says: ['ring'], repairs: 1 });
    quiet(silent(0.33, 47e-6), RULE);
  });

  it('has nothing to say where no sound goes to the radio over copper', () => {
    quiet(bench(), RULE);
    quiet(
      withSound().part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a', { lengthM: 0.2 }).wire('isolator.b', 'aux.aux', { lengthM: 2 }),
      RULE,
    );
  });
});
