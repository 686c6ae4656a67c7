import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-level-reversed';

describe('the program expects the key the other way round', () => {
  it('optocoupler to ground: low with the key on', () => {
    clean(bench(), RULE);
  });

  it('the same, and a program that takes high for “key on”', () => {
    const b = bench().set('computer', { senseActive: 'high-when-on' });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['GPIO 16', 'low'], repairs: 1 });
  });

  /** The transistor pulls the pin up to 3.3 V instead. */
  const follower = () =>
    bench()
      .cut('pin', 'pull+', 'pull-', 'emitter')
      .wire('opto.C', 'computer.17', { lengthM: 0.2 })
      .wire('opto.E', 'computer.36', { lengthM: 0.2 }, 'pin')
      .wire('pull.1', 'opto.E', { lengthM: 0.05 })
      .wire('pull.2', 'computer.34', { lengthM: 0.2 });

  it('as emitter follower: high with the key on', () => {
    const b = follower().set('computer', { senseGpio: 16 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['high'], repairs: 1 });
    clean(follower().set('computer', { senseGpio: 16, senseActive: 'high-when-on' }), RULE);
  });

  it('has nothing to say when no pin watches the key', () => {
    quiet(ground(), RULE);
    quiet(bench().set('computer', { senseGpio: 0 }), RULE);
  });
});
