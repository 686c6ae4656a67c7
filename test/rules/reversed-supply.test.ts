import { describe, expect, it } from 'vitest';
import { repairsFor } from '../../src/advise/index.ts';
import { clean, compute, findingsOf, flagged } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'reversed-supply';

/** Fuse, then at once a bulk capacitor and a module without a guard of its own. */
const bare = () =>
  fused('no guard')
    .part('converter', 'step-down', 'seat', { reverseGuard: false })
    .part('bulk', 'capacitor', 'seat')
    .part('computer', 'computer', 'seat')
    .wire('fuse.2', 'converter.in', { lengthM: 2 }, 'feed')
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 }, 'bulk+')
    .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 })
    .wire('converter.gnd', 'ground.31', { lengthM: 2 })
    .wire('converter.out', 'computer.2', { lengthM: 0.2, areaMm2: 1.5 })
    .wire('converter.0v', 'computer.6', { lengthM: 0.2, areaMm2: 1.5 });

describe('no guard against a reversed supply', () => {
  it('a guard behind a both-ways clamp is in order: 53.3 V + 14.4 V = 67.7 V, below 100 V', () => clean(bench(), RULE));

  it('a module straight behind the fuse sees −14 V', () => {
    const b = bare();
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'reversed supply': 14 }, repairs: 2 });
  });

  it('a converter’s own guard does not help the capacitor ahead of it', () => {
    const b = bare().set('converter', { reverseGuard: true });
    flagged(b, RULE, { level: 'fault', subject: b.id('bulk'), repairs: 1 });
  });

  it('on the middle of a 24 V pair one battery alone comes reversed: 14 V, not 28 V', () => {
    const whole = bare().vehicle({ systemV: 24 });
    flagged(whole, RULE, { level: 'fault', subject: whole.id('converter'), figures: { 'reversed supply': 28 } });
    const middle = bare().vehicle({ systemV: 24 }).set('feed30', { pair: 'half' });
    flagged(middle, RULE, { level: 'fault', subject: middle.id('converter'), figures: { 'reversed supply': 14 }, says: ['−14 V'] });
  });

  it('an electrolytic on a tap with no fuse is a hazard', () => {
    const b = bare().without('fuse').wire('feed30.out', 'converter.in', { lengthM: 2 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter') });
  });

  it('a one-way clamp conducts as a diode; the repair turns it round and cuts the guard in behind it', () => {
    const b = bare().part('clamp', 'surge-clamp', 'seat').wire('clamp.K', 'converter.in', { lengthM: 0.1 }).wire('clamp.A', 'converter.gnd', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), repairs: 2 });
  });

  it('a capacitor beside a guard needs no second one: it moves behind the one that is there', () => {
    const b = bench().cut('bulk+').wire('bulk.+', 'fuse.2', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('bulk'), repairs: 1 });
    const results = compute(b);
    const offers = repairsFor(b.plan, results, findingsOf(results, RULE)[0]!);
    expect(offers.map((o) => o.title)).toEqual([expect.stringMatching(/^Join it behind \S+ guard$/)]);
  });

  it('a strong diode from ground to the rail blows the fuse: 150² x 4.15 ms = 93 A²s, over 3 x 26 A²s of 5 A', () => {
    const b = bare()
      .set('fuse', { ratingA: 5 })
      .part('across', 'diode', 'seat', { type: 'schottky-60v-5a' })
      .wire('across.K', 'converter.in')
      .wire('across.A', 'converter.gnd');
    clean(b, RULE);
    // 30² x 4.15 ms = 3.7 A²s: the diode goes first.
    b.set('across', { type: '1n4007' });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter') });
  });

  it('a 60 V guard dies of the −150 V spike, and no clamp ahead lets less than 53.3 + 14.4 V through', () => {
    const b = bench().set('guard', { reverseV: 60 });
    flagged(b, RULE, { level: 'fault', subject: b.id('guard'), figures: { 'guard stands': 60, 'reverse volts across it': 67.7 }, repairs: 1 });
    const alone = bench().without('clamp');
    flagged(alone, RULE, { level: 'fault', subject: alone.id('guard'), figures: { 'reverse volts across it': 164.4 }, repairs: 1 });
    clean(bench().without('clamp').set('guard', { reverseV: 200 }), RULE);
  });

  it('a guard that carries more than it is made for burns out and guards no more', () => {
    // A 1N4148 is made for 0.15 A (its sheet, from memory); the computer and its converter draw more than an ampere.
    const small = bench().without('guard').part('d', 'diode', 'seat', { type: '1n4148' }).wire('relay.87', 'd.A').wire('d.K', 'converter.in');
    flagged(small, RULE, { level: 'fault', subject: small.id('d'), figures: { 'made for': 0.15 }, says: ['0.15 A', 'burns'] });
    const b = bench().set('guard', { ratedA: 0.5 });
    flagged(b, RULE, { level: 'fault', subject: b.id('guard'), figures: { 'made for': 0.5 }, says: ['0.50 A'], repairs: 1 });
    clean(bench().set('guard', { ratedA: 1.5 }), RULE);
  });

  it('a transistor guard needs its gate clamp', () => {
    const b = bench().set('guard', { clamped: false });
    flagged(b, RULE, { level: 'fault', subject: b.id('guard'), says: ['gate clamp'], repairs: 1 });
  });

  it('a series diode of 40 V must not stand on the vehicle’s side', () => {
    const b = fused('diode')
      .part('diode', 'diode', 'dash', { type: '1n5819' })
      .part('camera', 'camera', 'dash')
      .wire('fuse.2', 'diode.A', { lengthM: 0.2 })
      .wire('diode.K', 'camera.+', { lengthM: 0.2 })
      .wire('camera.-', 'ground.31', { lengthM: 0.2 });
    flagged(b, RULE, { level: 'fault', subject: b.id('diode'), figures: { 'guard stands': 40 }, repairs: 1 });
    clean(b.set('diode', { type: '1n4007' }), RULE);
  });
});

it('no diode is offered in the lead of a capacitor that stands alone: it could give nothing back to the converter', () => {
  const b = fused().part('bulk', 'capacitor', 'dash').wire('fuse.2', 'bulk.+', { lengthM: 0.2 }).wire('bulk.-', 'ground.31', { lengthM: 0.2 });
  flagged(b, RULE, { level: 'fault', subject: b.id('bulk') });
  const results = compute(b);
  expect(repairsFor(b.plan, results, findingsOf(results, RULE)[0]!)).toEqual([]);
});
