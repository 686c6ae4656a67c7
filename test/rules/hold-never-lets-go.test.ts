import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { onIgnition, withLatch } from './plansSense.ts';

const RULE = 'hold-never-lets-go';

describe('hold circuit that never lets go', () => {
  it('a timer triggered by ignition, a latch with a time limit', () => {
    clean(bench(), RULE);
    clean(withLatch(), RULE);
  });

  it('a latch held by the program alone; five minutes are offered', () => {
    const b = withLatch().set('latch', { backstopS: 0 });
    flagged(b, RULE, { level: 'fault', subject: b.id('latch'), says: ['program', 'flat'], repairs: 1 });
  });

  it('a latch that is set for ever', () => {
    const b = withLatch().cut('set').wire('fuse.2', 'latch.set', { lengthM: 2.1 }, 'set');
    flagged(b, RULE, { level: 'fault', subject: b.id('latch'), says: ['never falls'], repairs: 1 });
  });

  it('a timer triggered by permanent 30', () => {
    const b = bench().cut('trigger').wire('fuse.2', 'relay.15', { lengthM: 2.1 }, 'trigger');
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), says: ['never starts to run'], repairs: 1 });
    const { cards } = compute(b).report;
    expect(cards.find((c) => c.rule === RULE)?.folded.map((f) => f.code)).toContain('F10');
  });

  it('a cut-out ahead saves the battery: advice', () => {
    const b = withLatch()
      .set('latch', { backstopS: 0 })
      .into('feed', 'cutout', 'low-voltage-cutout', ['in', 'out'])
      .wire('cutout.gnd', 'ground.31', { lengthM: 0.3 })
      .wire('cutout.warn', 'computer.29', { lengthM: 0.3 });
    flagged(b, RULE, { level: 'advice', subject: b.id('latch'), repairs: 1 });
  });

  it('a relay that an optocoupler keeps drawn in for the computer', () => {
    const b = bench()
      .without('relay')
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .part('driver', 'optocoupler', 'seat')
      .part('driverR', 'resistor', 'seat', { ohm: 330 })
      .wire('fuse.2', 'k.30')
      .wire('k.87', 'guard.in')
      .wire('fuse.2', 'k.86')
      .wire('k.85', 'driver.C')
      .wire('driver.E', 'converter.gnd')
      .wire('computer.38', 'driverR.1')
      .wire('driverR.2', 'driver.A')
      .wire('driver.K', 'computer.39')
      .set('computer', { gpio20Mode: 'out' });
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), says: ['program', 'driver'] });
  });

  it('without a hold there is nothing to let go', () => quiet(onIgnition(), RULE));
});
