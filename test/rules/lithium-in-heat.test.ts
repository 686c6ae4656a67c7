import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, withCamera } from './plans.ts';

const RULE = 'lithium-in-heat';
/** A dash camera with a cell of its own. */
const camera = (lithium: boolean): Bench => withCamera(bench(), { lithium });

describe('lithium cells where it gets hot', () => {
  // 60 °C is the most for storing cells (cell makers' sheets, from memory); 85 °C on top of a dash (cabin soak classes, from memory).
  it('a cell at 85 °C on top of the dash; one under a seat, 60 °C', () => {
    const b = camera(true).zone('dash', { kind: 'dash-top' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('camera'), figures: { gets: 85, most: 60 }, says: ['lithium', '“'], repairs: 1 });
    clean(bench().set('computer', { lithium: true }), RULE);
  });

  it('either side of 60 °C, or of what the person says', () => {
    clean(camera(true).zone('dash', { maxC: 60 }), RULE);
    const b = camera(true).zone('dash', { maxC: 61 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('camera'), repairs: 1 });
    clean(b.threshold('lithiumMaxC', 65), RULE);
  });

  it('no cells, nothing to say', () => {
    quiet(camera(false).zone('dash', { kind: 'dash-top' }), RULE);
    quiet(bench(), RULE);
  });
});
