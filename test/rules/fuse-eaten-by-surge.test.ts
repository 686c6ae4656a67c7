import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { onIgnition, straight } from './plansSense.ts';

const RULE = 'fuse-eaten-by-surge';

/** A relay-held supply over thick wires with a large capacitor behind a small fuse. */
const thick = (b: Bench): Bench => b.wireSet('feed', { areaMm2: 2.5 }).wireSet('return', { areaMm2: 2.5 });
const filled = (farad: number, ratingA: number): Bench => thick(bench()).set('fuse', { ratingA }).set('bulk', { farad, esrOhm: 0.01 });

describe('switch-on surge eats the fuse', () => {
  it('470 µF behind the automatic fuse of the bench', () => clean(bench(), RULE));

  it('4700 µF behind 3 A: V² C / 2 R against 22 % of 9 A²s', () => {
    const b = filled(4700e-6, 3);
    const f = flagged(b, RULE, { level: 'fault', subject: b.id('fuse'), figures: { 'may use': 0.22 * 9 }, says: ['4700 µF'], repairs: 2 });
    const of = (label: string) => f.figures.find((x) => x.label === label)!.value;
    // Worked: 14.4 V charging (workshop tables, read), 4700 µF, 0.15 Ω give 3.25 A²s; the loop of the drawing is a little more or less.
    expect(of('surge')).toBeCloseTo((14.4 ** 2 * 4700e-6) / (2 * of('loop')), 6);
    expect((of('surge') * of('loop')) / 0.15).toBeCloseTo(3.25, 2);
    expect(of('loop')).toBeGreaterThan(0.1);
    expect(of('loop')).toBeLessThan(0.25);
  });

  it('5 A may use 0.22 × 26 = 5.7 A²s: clean', () => clean(filled(4700e-6, 5), RULE));

  it('either side of the limit, by the capacitor: 2 R × 1.98 / 14.4²', () => {
    const loop = flagged(filled(4700e-6, 3), RULE, { level: 'fault', subject: bench().id('fuse') }).figures.find((x) => x.label === 'loop')!.value;
    const most = (2 * loop * 1.98) / 14.4 ** 2;
    clean(filled(0.98 * most, 3), RULE);
    flagged(filled(1.02 * most, 3), RULE, { level: 'fault', subject: bench().id('fuse') });
  });

  it('a constant feed with nothing that switches fills it once only, when the fuse is put in: the whole 9 A²s count', () => {
    clean(thick(straight('30')).set('fuse', { ratingA: 3 }).set('bulk', { farad: 4700e-6, esrOhm: 0.01 }), RULE);
    const b = thick(straight('30')).set('fuse', { ratingA: 3 }).set('bulk', { farad: 0.022, esrOhm: 0.01, ratedV: 25 });
    flagged(b, RULE, { level: 'fault', subject: b.id('fuse'), figures: { 'may use': 9 }, says: ['is put in'] });
    // The key switches an ignition feed each day.
    const key = thick(onIgnition()).set('fuse', { ratingA: 3 }).set('bulk', { farad: 4700e-6, esrOhm: 0.01 });
    flagged(key, RULE, { level: 'fault', subject: key.id('fuse'), figures: { 'may use': 1.98 } });
  });

  it('says nothing of small capacitors', () => quiet(bench().set('bulk', { farad: 10e-6 }), RULE));
});
