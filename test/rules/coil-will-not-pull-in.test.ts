import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, coilOnOpto, plainRelay } from './plans.ts';
import { onIgnition, withLatch } from './plansSense.ts';

const RULE = 'coil-will-not-pull-in';
const TIMER_24 = { nominalV: 24, contactA: 20, coilA: 0.07, triggerOnV: 12, pullInV: 14.8, dropOutV: 8, dropOutMaxV: 9.6 };

describe('coil does not pull in, or lets go in a start', () => {
  it('under the seat, 60 °C: 7.2 V × 1.157 = 8.33 V cold, 9.80 V at 112 °C, of nearly 11 V', () => {
    clean(bench(), RULE);
    clean(plainRelay(), RULE);
  });

  it('engine bay: 105 °C and 52 K are 157 °C, 7.2 V × 1.538 = 11.08 V', () => {
    const b = bench('hot').zone('seat', { kind: 'engine-bay' });
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), figures: { 'needed to pull in': 11.08, gets: 10.69 }, says: ['157 °C', 'again'], repairs: 1 });
  });

  it('85 °C on top of the dash: 137 °C ask for 10.5 V, which are there', () => {
    clean(bench('sun').zone('seat', { kind: 'dash-top' }), RULE);
  });

  it('a coil that wants 9.6 V at 20 °C does not even pull in cold: 11.1 V', () => {
    const b = plainRelay({ pullInV: 9.6 });
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), figures: { 'needed to pull in': 11.11 }, says: ['60 °C'], repairs: 1 });
    const warm = plainRelay({ pullInV: 8 });
    flagged(warm, RULE, { level: 'fault', subject: warm.id('k'), figures: { 'needed to pull in': 8 * (1 + 0.00393 * 92) }, says: ['112 °C'], repairs: 1 });
  });

  // An optocoupler of rank A gives 0.8 x 0.7 x 0.7 of its 5.0 mA, times what is left of its ratio there: 1.97 mA. At 20 °C the coil wants
  // 7.2 V / R: 3.65 kΩ is the border, warm or cold, for the current that pulls it in stays the same.
  it('a coil behind an optocoupler is judged by what that is sure to pass', () => {
    const behind = (coilOhm: number) => coilOnOpto({ suppression: 'diode', coilOhm }, { type: '817a' }, 330);
    const b = behind(3600);
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), says: ['driver', 'mA'], figures: { 'sure to pass': 1.97e-3, 'pulls in with': 2e-3 } });
    clean(behind(3700), RULE);
  });

  it('level II: 5.5 V on the plateau for 10 s; a warm coil may let go below 4.8 V × 1.362 = 6.54 V', () => {
    const b = bench('level II', { dipLevel: 'II' });
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), figures: { gets: 5.5, 'may let go below': 6.54 }, says: ['level II'], repairs: 0 });
    const { cards } = compute(b).report;
    expect(cards.find((c) => c.rule === RULE)?.folded.map((f) => f.code)).toEqual(expect.arrayContaining(['C1', 'F3']));
  });

  it('behind the dash at 122 °C a 12 V coil may let go below 6.7 V: level I leaves 7.6 V and more', () => {
    const b = bench('dash').zone('seat', { kind: 'dash' });
    clean(b, RULE);
    const weak = bench('dash').zone('seat', { kind: 'dash' }).set('relay', { dropOutMaxV: 5.7 });
    // 7.6 V in the dip against 5.7 V × 1.401 = 7.99 V, for the 15 ms of the dip and parts of fall and rise
    flagged(weak, RULE, {
      level: 'fault',
      subject: weak.id('relay'),
      figures: { gets: 7.62, 'may let go below': 7.99 },
      says: ['level I', 'too little'],
      repairs: 1,
    });
  });

  it('the same dip is over before a coil with a diode lets go, when it is short', () => {
    const just = bench('dash').zone('seat', { kind: 'dash' }).set('relay', { dropOutMaxV: 5.45 });
    // 5.45 V × 1.401 = 7.63 V: 15 ms at the bottom and next to nothing on the slopes
    flagged(just, RULE, { level: 'fault', subject: just.id('relay'), figures: { 'too little for': 0.0157 }, repairs: 1 });
    clean(bench('dash').zone('seat', { kind: 'dash' }).set('relay', { dropOutMaxV: 5.4 }), RULE);
  });

  it('24 V: 14.8 V at 20 °C; its dip of 10 V for 50 ms is too low for a warm coil that lets go below 13.1 V', () => {
    const b = bench('24 V', { systemV: 24 }).set('relay', TIMER_24);
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), figures: { 'may let go below': 13.07, gets: 9.8 }, repairs: 1 });
    clean(bench('24 V', { systemV: 24 }).set('relay', { ...TIMER_24, dropOutMaxV: 7, dropOutV: 6 }), RULE);
  });

  it('no coil, nothing to say', () => {
    quiet(onIgnition(), RULE);
    quiet(withLatch(), RULE);
  });
});
