import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';
import { keyDivider, withLatch } from './plansSense.ts';

const RULE = 'sense-never-falls';

describe('the sensed line does not follow the key', () => {
  it('ignition falls with the key', () => {
    clean(bench(), RULE);
  });

  it('permanent is live with the key off', () => {
    const b = bench().cut('sense').wire('fuse.2', 'sense.1', { lengthM: 0.05 });
    const f = flagged(b, RULE, { level: 'fault', subject: b.id('opto'), says: ['never hears of key-off'], repairs: 1 });
    expect(f.state).toBe('OFF_ASLEEP');
  });

  it('the output of the hold relay falls only with the supply', () => {
    const b = bench().cut('sense').wire('relay.87', 'sense.1', { lengthM: 0.05 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), says: ['own supply'], repairs: 1 });
  });

  // Owner’s handbooks of five vehicles (read): retained accessory ends after minutes, or as soon as a door opens.
  it('retained accessory falls when a door opens: it does follow the key, only late', () => {
    const b = bench()
      .part('retained', 'feed-75r', 'dash', {}, { owner: 'vehicle' })
      .wire('battery.+', 'retained.in', { owner: 'vehicle' })
      .cut('sense')
      .wire('retained.out', 'sense.1', { lengthM: 0.05 });
    clean(b, RULE);
  });

  it('behind a latch that no door opens it falls by its time alone: advice', () => {
    const b = withLatch().cut('sense').wire('latch.out', 'sense.1', { lengthM: 0.05 });
    const f = flagged(b, RULE, { level: 'advice', subject: b.id('opto'), says: ['key off, door opened', 'time has run out'], repairs: 1 });
    expect(f.state).toBe('RETAIN_DOOR');
  });

  it('lamps are no key', () => {
    const b = bench()
      .part('lamps', 'feed-58', 'dash', {}, { owner: 'vehicle' })
      .wire('battery.+', 'lamps.in', { owner: 'vehicle' })
      .cut('sense')
      .wire('lamps.out', 'sense.1', { lengthM: 0.05 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), says: ['lamp switch'], repairs: 1 });
  });

  it('a divider is heard like an optocoupler: on ignition it falls, on permanent it never does', () => {
    clean(keyDivider('feed-15'), RULE);
    const b = keyDivider('feed-30');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['GPIO 16', 'never hears of key-off'] });
    const lamps = keyDivider('feed-58');
    flagged(lamps, RULE, { level: 'fault', subject: lamps.id('computer'), says: ['lamp switch'] });
  });

  it('a sensor on a pin that does not watch the key may watch anything', () => {
    quiet(bench().cut('sense').wire('fuse.2', 'sense.1', { lengthM: 0.05 }).set('computer', { senseGpio: 0 }), RULE);
    quiet(ground(), RULE);
  });
});
