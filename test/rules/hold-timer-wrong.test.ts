import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { onIgnition, sensedOn, withLatch } from './plansSense.ts';

const RULE = 'hold-timer-wrong';

describe('hold timer too short or wrongly triggered', () => {
  it('90 s less 10 % are 81 s; the stop may take 1.25 × 31 = 38.75 s', () => clean(bench(), RULE));

  it('the two sides of 38.75 s: 43 s less 10 % are 38.7 s, 44 s less 10 % are 39.6 s', () => {
    const b = bench().set('relay', { holdS: 43 });
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), figures: { 'sure to hold': 38.7, needed: 38.75 }, says: ['43 s', '10 %'], repairs: 1 });
    clean(bench().set('relay', { holdS: 44 }), RULE);
  });

  it('an RC timer of 50 s may be 30 % short: 35 s', () => {
    const b = bench().set('relay', { holdS: 50, holdTol: 0.3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), figures: { 'sure to hold': 35 }, repairs: 1 });
  });

  it('its own supply from the line that falls', () => {
    const b = bench().cut('feed').wire('senseFuse.2', 'relay.30', { lengthM: 2.1 }, 'feed');
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), says: ['own supply', 'falls with the key'], repairs: 1 });
  });

  it('triggered by the side lamps', () => {
    const b = sensedOn('58').cut('trigger').wire('otherFuse.2', 'relay.15', { lengthM: 2.3 }, 'trigger');
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), says: ['the lamp switch'], repairs: 1 });
  });

  it('one that always runs out must not be triggered by a line that is dead in each start', () => {
    const b = sensedOn('75', 'runs out', 'same').set('relay', { minOffS: 5 }).set('computer', { filterS: 12 });
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), says: ['after each start it cuts'], repairs: 1 });
    clean(bench().set('relay', { minOffS: 5 }), RULE);
    clean(sensedOn('75', 'plain', 'same').set('computer', { filterS: 12 }), RULE);
  });

  it('no timer, nothing to say', () => {
    quiet(withLatch(), RULE);
    quiet(onIgnition(), RULE);
  });
});
