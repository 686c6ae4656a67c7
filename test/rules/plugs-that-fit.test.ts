import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'plugs-that-fit';

/** A plug with 12 V for a camera, and one with 5 V for a display, in one zone. */
const plugs = (one: string, two: string, zone: 'seat' | 'dash' = 'seat'): Bench =>
  bench()
    .part('p12', 'connector', 'seat', { ways: 2, family: one })
    .part('p5', 'connector', zone, { ways: 2, family: two })
    .wire('relay.87', 'p12.a1', { lengthM: 0.2 })
    .wire('p12.a2', 'converter.gnd', { lengthM: 0.2 })
    .wire('converter.out', 'p5.a1', { lengthM: 0.2 })
    .wire('p5.a2', 'converter.0v', { lengthM: 0.2 });

describe('two plugs that fit each other and must never meet', () => {
  it('two barrel plugs of 2.1 mm, 12 V in one and 5 V in the other', () => {
    const b = plugs('Barrel 2.1 mm', 'barrel 2.1 mm');
    flagged(b, RULE, { level: 'hazard', subject: b.id('p5'), says: ['cavity 1', '12 V', '5 V'], repairs: 1 });
  });

  it('different families, or another zone', () => {
    clean(plugs('Barrel 2.1 mm', 'Barrel 2.5 mm'), RULE);
    clean(plugs('Barrel 2.1 mm', 'Barrel 2.1 mm', 'dash'), RULE);
  });

  it('alike on every cavity may meet', () => {
    const b = bench().part('x', 'connector', 'seat', { ways: 2, family: 'sealed' }).part('y', 'connector', 'seat', { ways: 2, family: 'sealed' });
    clean(b.wire('relay.87', 'x.a1').wire('relay.87', 'y.a1'), RULE);
    // Ground where the other has 12 V is a short, not a likeness.
    const turned = b.wire('x.a2', 'converter.gnd').wire('relay.87', 'y.a2');
    flagged(turned, RULE, { level: 'hazard', subject: b.id('y'), says: ['cavity 2'], repairs: 1 });
  });

  it('families that nobody has named', () => unsure(plugs('', ''), RULE, 'family'));

  it('a plug of no known family does not hide two that are known to fit', () => {
    const b = bench()
      .part('open', 'connector', 'seat', { ways: 2 })
      .part('p12', 'connector', 'seat', { ways: 2, family: 'sealed' })
      .part('p5', 'connector', 'seat', { ways: 2, family: 'sealed' })
      .wire('relay.87', 'open.a1', { lengthM: 0.2 })
      .wire('relay.87', 'p12.a1', { lengthM: 0.2 })
      .wire('converter.out', 'p5.a1', { lengthM: 0.2 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('p5'), says: ['p12'], repairs: 1 });
  });

  it('says nothing without plugs', () => quiet(bench(), RULE));
});
