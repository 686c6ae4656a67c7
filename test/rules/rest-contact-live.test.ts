import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'rest-contact-live';
/** A relay on the permanent feed, pulled in by ignition, with something at one of its contacts. */
const changeover = (contact: '87' | '87a'): Bench =>
  bench()
    .part('k', 'relay', 'seat', { suppression: 'diode' })
    .wire('fuse.2', 'k.30', { lengthM: 2.1 })
    .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 })
    .part('plug', 'connector', 'desk', { ways: 2 })
    .wire(`k.${contact}`, 'plug.a1', { lengthM: 2 });

describe('changeover contact leaves the wrong thing live', () => {
  it('87a is live on a plug with the key off', () => {
    const b = changeover('87a');
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), figures: { 'at 87a': 12.9 }, says: ['parked', 'plug'], repairs: 1 });
  });

  it('a relay whose 30 falls with the key passes', () => {
    const b = changeover('87a').cut('fuse.2>k.30').wire('senseFuse.2', 'k.30', { lengthM: 2.3 });
    clean(b, RULE);
  });

  it('a lamp with its resistor that tells of rest is meant to be live', () => {
    const b = changeover('87a')
      .without('plug')
      .part('r', 'resistor', 'desk')
      .part('lamp', 'led', 'desk')
      .wire('k.87a', 'r.1', { lengthM: 2 })
      .wire('r.2', 'lamp.A')
      .wire('lamp.K', 'ground.31', { lengthM: 2 });
    clean(b, RULE);
  });

  it('a relay that picks one of two supplies gets one of them at 87a: it is fed there, and nothing hangs on it', () => {
    const b = bench()
      .cut('out', 'feed')
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .wire('fuse.2', 'k.87a', { lengthM: 2.1 })
      .wire('senseFuse.2', 'k.87', { lengthM: 2.1 })
      .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
      .wire('k.85', 'converter.gnd', { lengthM: 0.3 })
      .wire('k.30', 'guard.in', { lengthM: 0.2 });
    clean(b, RULE);
  });

  it('87 alone, or no relay: nothing to say', () => {
    quiet(changeover('87'), RULE);
    quiet(bench(), RULE);
  });
});
