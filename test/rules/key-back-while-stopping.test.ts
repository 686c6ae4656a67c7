import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { bench } from './plans.ts';
import { onIgnition, straight, withIgnition, withLatch, withStore } from './plansSense.ts';

const RULE = 'key-back-while-stopping';

describe('key comes back while the computer stops', () => {
  it('a stop that turns into a restart: advice for the time between 31 s and 90 s + 10 % = 99 s', () => {
    const b = bench();
    flagged(b, RULE, {
      level: 'advice',
      subject: b.id('computer'),
      figures: { 'stopped at the latest': 31, 'power gone at the latest': 99 },
      says: ['31 s', '99 s'],
      repairs: 2,
    });
  });

  it('without that it is a fault: the returning key starts the timer anew', () => {
    const b = bench().set('computer', { restartsOnKey: false });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['anew', 'while you drive'], repairs: 1 });
  });

  it('a timer that always runs out and stays open: 3 s and more', () => {
    const b = bench().set('relay', { minOffS: 2.9 });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), repairs: 1 });
    clean(bench().set('relay', { minOffS: 3 }), RULE);
    clean(bench().set('relay', { minOffS: 5 }).set('computer', { restartsOnKey: false }), RULE);
  });

  it('GPIO 3 wakes it, if something is joined there and no pin says “stopped”', () => {
    const woken = () =>
      bench()
        .part('wake', 'push-button', 'seat', { contact: 'gold' })
        .wire('computer.5', 'wake.1', { lengthM: 0.3 })
        .wire('wake.2', 'computer.39', { lengthM: 0.3 })
        .set('computer', { wakes: 'gpio3', restartsOnKey: false });
    clean(woken(), RULE);
    const b = woken().set('computer', { powerOffPin: 26 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), repairs: 1 });
  });

  it('a latch that the key sets is kept closed by a key that is back; one that a button sets opens all the same', () => {
    const b = withLatch();
    // 31 s of stop and 5 s + 30 % of release
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'power gone at the latest': 37.5 }, says: ['closed'], repairs: 1 });
    const button = withLatch()
      .cut('set')
      .part('button', 'push-button', 'dash', { contact: 'gold' })
      .wire('fuse.2', 'button.1', { lengthM: 0.1 })
      .wire('button.2', 'latch.set2', { lengthM: 2.3 });
    clean(button, RULE);
  });

  it('offers no waking button where the pin that wakes is taken, or another says “stopped”', () => {
    const offers = (b: ReturnType<typeof bench>): boolean => repairsOf(b, RULE).some((r) => /wakes/.test(r.title));
    expect(offers(withLatch())).toBe(true);
    expect(offers(withLatch().part('led', 'resistor', 'seat').wire('computer.5', 'led.1', { lengthM: 0.3 }))).toBe(false);
    expect(offers(withLatch().set('computer', { powerOffPin: 26 }))).toBe(false);
  });

  it('straight on permanent 30 its power never goes', () => {
    const b = bench().cut('out', 'feed').wire('fuse.2', 'guard.in', { lengthM: 2.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['pulls the fuse'], repairs: 1 });
  });

  it('a full store keeps a stopped board’s power up for most of an hour', () => {
    const b = withStore();
    // 16.7 F from 12.2 V to 6.75 V, 23 mA × 5 V / 0.8 and 3 mA of idle current: 0.17 W
    flagged(b, RULE, {
      level: 'fault',
      subject: b.id('computer'),
      figures: { 'power stays for': (16.67 * (12.24 ** 2 - 6.75 ** 2)) / 2 / (0.14375 + 0.0285) },
      says: ['minutes'],
      repairs: 1,
    });
  });

  it('fed over ignition alone, power comes back with the key', () => clean(onIgnition(), RULE));

  it('a computer that does not watch the key does not stop', () => quiet(withIgnition(straight('30')), RULE));
});
