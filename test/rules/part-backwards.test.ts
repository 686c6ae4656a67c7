import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'part-backwards';

describe('a part is in backwards', () => {
  it('everything on the bench is the right way round', () => clean(bench(), RULE));

  it('what stands in the supply line the wrong way round: a diode lets nothing through, a guard guards nothing', () => {
    const diode = bench().into('feed', 'd', 'diode', ['K', 'A'], { type: 'schottky-60v-5a' });
    flagged(diode, RULE, { level: 'fault', subject: diode.id('d'), says: ['nothing passes'], repairs: 1 });
    clean(bench().into('feed', 'd', 'diode', ['A', 'K'], { type: 'schottky-60v-5a' }), RULE);
    const guard = bench().cut('out', 'toConverter').wire('relay.87', 'guard.out', { lengthM: 0.2 }).wire('guard.in', 'converter.in', { lengthM: 0.1 });
    flagged(guard, RULE, { level: 'fault', subject: guard.id('guard'), says: ['out lies towards the supply'], repairs: 1 });
  });

  it('bulk capacitor with its plus on ground', () => {
    const b = bench().cut('bulk+', 'bulk-').wire('bulk.-', 'converter.in', { lengthM: 0.1 }).wire('bulk.+', 'converter.gnd', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('bulk'), repairs: 1 });
  });

  it('one-way clamp with its cathode on ground', () => {
    const b = bench()
      .cut('clamp+', 'clamp-')
      .set('clamp', { bidirectional: false })
      .wire('clamp.A', 'guard.in', { lengthM: 0.1 })
      .wire('clamp.K', 'converter.gnd', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('clamp'), repairs: 1 });
  });

  it('a diode across the supply with its ring on ground', () => {
    const b = bench().part('across', 'diode', 'seat', { type: '1n4007' }).wire('across.A', 'converter.in').wire('across.K', 'converter.gnd');
    flagged(b, RULE, { level: 'hazard', subject: b.id('across'), figures: { 'reversed by': 12 }, repairs: 1 });
    clean(bench().part('across', 'diode', 'seat', { type: '1n4007' }).wire('across.K', 'converter.in').wire('across.A', 'converter.gnd'), RULE);
  });

  it('a converter with a guard stands it and does not work; without one it is destroyed', () => {
    const swapped = (reverseGuard: boolean) =>
      bench()
        .set('converter', { reverseGuard })
        .cut('toConverter', 'return', 'bulk+', 'bulk-', 'clamp-', 'guard-', 'relay-')
        .wire('guard.out', 'converter.gnd', { lengthM: 0.1 })
        .wire('converter.in', 'ground.31', { lengthM: 2.2 })
        .wire('clamp.A', 'ground.31', { lengthM: 2 })
        .wire('guard.gnd', 'ground.31', { lengthM: 2 })
        .wire('relay.31', 'ground.31', { lengthM: 2 });
    const b = swapped(true);
    flagged(b, RULE, { level: 'fault', subject: b.id('converter') });
    const bare = swapped(false);
    flagged(bare, RULE, { level: 'hazard', subject: bare.id('converter') });
  });

  it('5 V and 0 V of the computer swapped', () => {
    const b = bench()
      .cut('five', 'four', 'zero6', 'zero9', 'zero14', 'pin', 'pull-', 'emitter')
      .wire('converter.out', 'computer.6')
      .wire('converter.0v', 'computer.2');
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), figures: { 'reversed by': 5.12 }, says: ['pin 6', 'pin 2'] });
  });
});
