import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { withLatch } from './plansSense.ts';

const RULE = 'button-of-wrong-kind';
/** A button at GPIO 3 (pin 5), which wakes the computer. */
const wake = (latching: boolean): Bench =>
  bench().set('computer', { wakes: 'gpio3' }).part('button', 'push-button', 'seat', { latching }).wire('button.1', 'computer.5').wire('button.2', 'computer.9');
/** A button at GPIO 5 (pin 29) that the computer takes for its key. */
const key = (latching: boolean, senseActive: string): Bench =>
  bench()
    .set('computer', { senseGpio: 5, senseActive })
    .part('button', 'push-button', 'seat', { latching })
    .wire('button.1', 'computer.29')
    .wire('button.2', 'computer.30');
const set = (latching: boolean): Bench =>
  withLatch().part('button', 'push-button', 'seat', { latching }).wire('fuse.2', 'button.1').wire('button.2', 'latch.set2');

describe('button of the wrong kind', () => {
  it('the button that wakes the computer must spring back', () => {
    const b = wake(true);
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), says: ['GPIO 3', 'stays in'], repairs: 1 });
    clean(wake(false), RULE);
  });

  it('a stop button that stays in stops it again at each start', () => {
    const b = key(true, 'high-when-on');
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), says: ['again at each start'], repairs: 1 });
    clean(key(false, 'high-when-on'), RULE);
  });

  it('what says “on” must stay in', () => {
    const b = key(false, 'low-when-on');
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), says: ['letting go'], repairs: 1 });
    clean(key(true, 'low-when-on'), RULE);
  });

  it('a latch that a button keeps set could never open', () => {
    const b = set(true);
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), says: ['never open'], repairs: 1 });
    clean(set(false), RULE);
  });

  it('a button that springs back as the main switch', () => {
    const b = bench().into('feed', 'button', 'push-button', ['1', '2']);
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), says: ['only while it is held'], repairs: 1 });
  });

  it('an ordinary input may have either, and no button has nothing to say', () => {
    quiet(bench(), RULE);
    quiet(bench().part('button', 'push-button', 'seat', { latching: true }).wire('button.1', 'computer.29').wire('button.2', 'computer.30'), RULE);
  });
});
