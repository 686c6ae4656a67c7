import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'capacitor-ages-fast';
const bulk = (ratedC: number, runningC: number): Bench => bench().set('bulk', { ratedC, lifeH: 2000 }).zone('seat', { kind: 'dash-top', maxC: runningC });

describe('capacitor ages fast in its place', () => {
  // 2000 h, doubled for each 10 K below the rating (makers' technical pages): 85 °C part at 70 + 5 °C 4000 h, 105 °C part 16 000 h.
  it('an 85 °C part at 70 °C lasts 4000 h, a 105 °C part 16 000 h', () => {
    const b = bulk(85, 70);
    flagged(b, RULE, { level: 'advice', subject: b.id('bulk'), figures: { lasts: 4000, wanted: 5000 }, repairs: 1 });
    clean(bulk(105, 70), RULE);
  });

  it('either side of 5000 h: 66 °C and 67 °C', () => {
    // 2000 × 2^((85 − 66 − 5) / 10) = 5278 h; at 67 °C 4925 h
    clean(bulk(85, 66), RULE);
    const b = bulk(85, 67);
    flagged(b, RULE, { level: 'advice', subject: b.id('bulk'), repairs: 1 });
    clean(b.threshold('capacitorLifeH', 4900), RULE);
  });

  it('film and ceramic do not dry out', () => {
    quiet(bench().set('bulk', { polarised: false, ratedC: 60 }), RULE);
    quiet(ground(), RULE);
  });
});
