import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { withLatch } from './plansSense.ts';

const RULE = 'hold-drops-at-boot';

/** The latch set by a button alone. */
const byButton = () =>
  withLatch()
    .cut('set')
    .part('button', 'push-button', 'dash', { contact: 'gold' })
    .wire('fuse.2', 'button.1', { lengthM: 0.1 })
    .wire('button.2', 'latch.set2', { lengthM: 2.3 });

describe('hold circuit drops at boot or at a restart', () => {
  it('set by ignition: only a restart with the key off is cut, 3.5 s (5 s less 30 %) against 30 s', () => {
    const b = withLatch();
    flagged(b, RULE, { level: 'advice', subject: b.id('latch'), figures: { 'opens after': 3.5, 'time to start': 30 }, says: ['GPIO 20 (pin 38)'], repairs: 1 });
  });

  it('set by a button: the press is over long before the pin holds', () => {
    const b = byButton();
    flagged(b, RULE, { level: 'fault', subject: b.id('latch'), figures: { 'opens after': 3.5 }, says: ['press of the button'], repairs: 1 });
  });

  it('the two sides of 30 s: 42 s and 43 s less 30 %', () => {
    const b = byButton().set('latch', { releaseS: 42 });
    flagged(b, RULE, { level: 'fault', subject: b.id('latch'), figures: { 'opens after': 29.4 }, repairs: 1 });
    clean(byButton().set('latch', { releaseS: 43 }), RULE);
    clean(byButton().set('latch', { releaseS: 60 }), RULE);
  });

  it('held by the output that says “stopped”: low while it runs (board maker’s notes, read)', () => {
    const b = withLatch().set('latch', { releaseS: 60 }).set('computer', { powerOffPin: 20 });
    flagged(b, RULE, { level: 'fault', subject: b.id('latch'), says: ['low while the computer runs'], repairs: 1 });
  });

  it('held by an input', () => {
    const b = withLatch().set('latch', { releaseS: 60 }).set('computer', { gpio20Mode: 'in' });
    flagged(b, RULE, { level: 'fault', subject: b.id('latch'), says: ['no output'], repairs: 1 });
  });

  it('a timer needs no pin', () => quiet(bench(), RULE));
});
