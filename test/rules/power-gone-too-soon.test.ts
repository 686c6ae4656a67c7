import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';
import { onIgnition, straight, withCutout, withIgnition, withLatch } from './plansSense.ts';

const RULE = 'power-gone-too-soon';

describe('power goes away before the computer has finished', () => {
  it('hold relay 90 s ±10 %: 81 s against 38.75 s', () => {
    clean(bench(), RULE);
  });

  it('20 s ±30 %: 14 s against 1.25 × (3 + 3 + 25) = 38.75 s', () => {
    const b = bench().set('relay', { holdS: 20, holdTol: 0.3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'held at least': 14, needed: 38.75 }, says: ['relay', '14 s'], repairs: 1 });
  });

  it('50 s ±30 % is 35 s: not enough; a filter of 15 s asks for 53.75 s', () => {
    const b = bench().set('relay', { holdS: 50, holdTol: 0.3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'held at least': 35 }, repairs: 1 });
    const slow = bench().set('relay', { holdS: 50, holdTol: 0.1 }).set('computer', { filterS: 15 });
    flagged(slow, RULE, { level: 'fault', subject: slow.id('computer'), figures: { needed: 53.75 }, repairs: 1 });
  });

  it('fed over ignition: it falls with the key', () => {
    const b = onIgnition();
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'held at least': 0 }, says: ['falls with the key'], repairs: 1 });
  });

  it('a plain relay pulled in by ignition opens with it', () => {
    const b = bench()
      .without('relay')
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .wire('fuse.2', 'k.30')
      .wire('k.87', 'guard.in')
      .wire('senseFuse.2', 'k.86')
      .wire('k.85', 'converter.gnd');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['opens as soon as'] });
  });

  it('a converter’s enable on ignition', () => {
    const b = bench().cut('out', 'feed').wire('fuse.2', 'guard.in', { lengthM: 2.1 }).wire('senseFuse.2', 'converter.en');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['falls with the key'] });
  });

  it('a switch in the supply or in the trigger line leaves the hold as it is', () => {
    clean(bench().into('feed', 'switch', 'master-switch', ['1', '2']), RULE);
    clean(bench().into('trigger', 'switch', 'master-switch', ['1', '2'], { contact: 'gold' }), RULE);
  });

  it('nothing tells it of key-off', () => {
    const b = withIgnition(straight('30'));
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['watches the key'], repairs: 1 });
  });

  it('sensed on a retained line, held by a relay on ignition: the relay may let go first', () => {
    const b = bench()
      .part('retained', 'feed-75r', 'dash', {}, { owner: 'vehicle' })
      .wire('battery.+', 'retained.in', { owner: 'vehicle' })
      .cut('sense')
      .wire('retained.out', 'sense.1', { lengthM: 0.05 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['may let go first'] });
  });

  it('leaves the word to the store’s own rule where one carries the computer', () => {
    const b = onIgnition().part('store', 'capacitor', 'seat', { farad: 16, ratedV: 16 }).wire('store.+', 'converter.in').wire('store.-', 'converter.gnd');
    quiet(b, RULE);
  });

  it('a latch that a pin holds is sure for its backstop less 30 %; one that nothing holds for its release time', () => {
    clean(withLatch(), RULE);
    const short = withLatch().set('latch', { backstopS: 50 });
    flagged(short, RULE, { level: 'fault', subject: short.id('computer'), figures: { 'held at least': 35 }, says: ['stay closed for 35 s'], repairs: 1 });
    const loose = withLatch().cut('hold');
    flagged(loose, RULE, { level: 'fault', subject: loose.id('computer'), figures: { 'held at least': 3.5 }, repairs: 1 });
  });

  it('a cut-out counts for nothing unless a pin hears its warning, and then for its delay less 10 %', () => {
    const b = withCutout();
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'held at least': 0 }, says: ['without a warning'] });
    const heard = (delayS: number) => withCutout().set('cutout', { delayS }).wire('cutout.warn', 'computer.29', { lengthM: 0.3 });
    clean(heard(90), RULE);
    const late = heard(40);
    flagged(late, RULE, { level: 'fault', subject: late.id('computer'), figures: { 'held at least': 36 }, says: ['after its warning'], repairs: 1 });
  });

  it('has nothing to say of a computer that nothing feeds', () => {
    quiet(ground().part('computer', 'computer', 'seat'), RULE);
  });
});
