import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { bench, fused, ground } from './plans.ts';

const RULE = 'two-supplies-tied';

const two = () =>
  ground('two leads')
    .part('feed30', 'feed-30', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('feed75', 'feed-75', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('fuse', 'blade-fuse', 'dash')
    .part('fuse75', 'blade-fuse', 'dash')
    .part('converter', 'step-down', 'dash')
    .wire('feed30.out', 'fuse.1', { lengthM: 0.1 })
    .wire('feed75.out', 'fuse75.1', { lengthM: 0.1 })
    .wire('converter.gnd', 'ground.31');

describe('two supplies tied together', () => {
  it('a feed and a sensed lead of one plan are not', () => clean(bench(), RULE));

  it('yellow and red twisted together after their fuses', () => {
    const b = two().wire('fuse.2', 'converter.in').wire('fuse75.2', 'converter.in');
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30'), says: ['after their fuses'], repairs: 2 });
    expect(repairsOf(b, RULE).map((r) => [r.title, r.safe])).toContainEqual(['Put a series diode into each of the two', false]);
    // A 24 V vehicle wants a both-ways clamp ahead of every diode: none is offered alone.
    expect(repairsOf(b.vehicle({ systemV: 24 }), RULE).map((r) => r.title)).not.toContain('Put a series diode into each of the two');
  });

  it('diodes that may part them are in order', () => {
    const b = two()
      .part('d1', 'diode', 'dash', { type: '1n4007' })
      .part('d2', 'diode', 'dash', { type: '1n4007' })
      .wire('fuse.2', 'd1.A')
      .wire('fuse75.2', 'd2.A')
      .wire('d1.K', 'converter.in')
      .wire('d2.K', 'converter.in');
    clean(b, RULE);
  });

  it('a diode in one of them alone lets the other be fed backwards', () => {
    const one = (diode: 'fuse' | 'fuse75') => {
      const other = diode === 'fuse' ? 'fuse75' : 'fuse';
      return two().part('d', 'diode', 'dash', { type: '1n4007' }).wire(`${diode}.2`, 'd.A').wire('d.K', 'converter.in').wire(`${other}.2`, 'converter.in');
    };
    // Permanent reaches accessory through the diode: with the key out all that hangs on accessory stays on.
    const b = one('fuse');
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30'), says: ['feed75', 'backwards'], repairs: 2 });
    expect(repairsOf(b, RULE).map((r) => r.title)).toContainEqual(expect.stringMatching(/^Put a series diode behind \S+ fuse75 as well$/));
    // The other way round nothing is fed that is not live already.
    clean(one('fuse75'), RULE);
  });

  it('a changeover contact joins one at a time', () => {
    const b = two().part('relay', 'relay', 'dash').wire('fuse.2', 'relay.87a').wire('fuse75.2', 'relay.87').wire('relay.30', 'converter.in');
    clean(b, RULE);
    // The other contact of a second relay closes the gap after all.
    b.part('relay2', 'relay', 'dash').wire('fuse.2', 'relay2.30').wire('relay2.87', 'converter.in');
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30'), repairs: 1 });
  });

  it('one tap has nothing to be tied to', () => quiet(fused(), RULE));
});
