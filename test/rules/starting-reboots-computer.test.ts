import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';
import { onIgnition, sensedOn, straight, withIgnition, withStore } from './plansSense.ts';

const RULE = 'starting-reboots-computer';

/** Fed over accessory alone, with an ignition lead at hand. */
function onAccessory(b: Bench = onIgnition('accessory')): Bench {
  return b
    .part('feed75', 'feed-75', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .wire('battery.+', 'feed75.in', { owner: 'vehicle' })
    .cut('tap')
    .wire('feed75.out', 'fuse.1', { lengthM: 0.12 }, 'tap');
}

describe('starting the engine reboots the computer', () => {
  it('permanent 30 through a relay held by ignition', () => clean(bench(), RULE));

  it('ignition stays live while starting', () => clean(onIgnition(), RULE));

  it('accessory is dead while starting; a hold relay on permanent 30 is offered', () => {
    const b = onAccessory();
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'longest start': 10 }, says: ['dead while the starter turns'], repairs: 1 });
  });

  it('so is retained accessory', () => {
    const b = withIgnition(straight('75r'));
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), repairs: 1 });
  });

  it('a hold relay that accessory triggers holds through the start', () => clean(sensedOn('75', 'held', 'same'), RULE));

  it('a plain relay pulled in by accessory does not', () => {
    const b = sensedOn('75')
      .without('relay')
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .wire('fuse.2', 'k.30')
      .wire('k.87', 'guard.in')
      .wire('otherFuse.2', 'k.86')
      .wire('k.85', 'converter.gnd');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['k is open'] });
  });

  it('a store that lasts longer than the longest start', () => {
    clean(onAccessory(withStore()), RULE);
    const small = onAccessory(withStore()).set('store', { cellFarad: 10 });
    flagged(small, RULE, { level: 'fault', subject: small.id('computer') });
  });

  it('dip level II: the converter starves on the plateau, and that card tells of it', () => {
    const b = straight('30', 'level II', { dipLevel: 'II' });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['level II', 'gets too little'] });
    const { cards } = compute(b).report;
    expect(cards.find((c) => c.code === 'C1')?.folded.map((f) => f.code)).toContain('F3');
  });

  it('dip level II: the hold relay falls open', () => {
    const b = bench('level II', { dipLevel: 'II' });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['relay falls open'] });
  });

  it('a computer that nothing feeds', () => quiet(ground().part('computer', 'computer', 'seat'), RULE));
});
