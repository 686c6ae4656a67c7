import { describe, expect, it } from 'vitest';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKind } from '../../src/parts/index.ts';
import { cellLimitV, worstCellV } from '../../src/parts/storeFigures.ts';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { bench } from './plans.ts';
import { withStore } from './plansSense.ts';

const RULE = 'cells-over-volted';
const cells = (n: number) => settingsOf(partKind('store'), { cells: n, balanced: false });

describe('share of the smallest cell (worked by hand, −10 / +20 %)', () => {
  it('two cells at 5.25 V: 3.0 V; three: 2.1 V; six at 13.5 V: 2.84 V', () => {
    expect(worstCellV(cells(2), 5.25)).toBeCloseTo(3.0, 1);
    expect(worstCellV(cells(3), 5.25)).toBeCloseTo(2.1, 1);
    expect(worstCellV(cells(6), 13.5)).toBeCloseTo(2.84, 2);
  });

  it('2.7 V up to 65 °C, 2.3 V up to 85 °C, nothing above (cell data sheet, read)', () => {
    expect([65, 66, 85, 86].map((t) => cellLimitV(cells(6), t))).toEqual([2.7, expect.closeTo(2.3, 6), expect.closeTo(2.3, 6), 0]);
  });
});

describe('supercapacitor cells over-volted or cooked', () => {
  it('six balanced cells filled to 15 V: 2.63 V at the most', () => clean(withStore(), RULE));

  it('not balanced, the smallest gets 15 × 1.111 / (1.111 + 5 × 0.833) = 3.16 V', () => {
    const b = withStore().set('store', { balanced: false });
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('store'),
      figures: { 'smallest cell gets': 3.16, 'a cell stands': 2.7 },
      says: ['six', '6 cells'].slice(1),
      repairs: 1,
    });
  });

  it('not balanced but far below the rating: advice', () => {
    const b = withStore().set('store', { balanced: false, cells: 8 });
    flagged(b, RULE, { level: 'advice', subject: b.id('store'), says: ['not balanced'], repairs: 1 });
  });

  it('five balanced cells at 15 V get 3.15 V: a sixth is offered, or filling to 12.8 V', () => {
    const b = withStore().set('store', { cells: 5 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('store'), figures: { 'smallest cell gets': 3.15 }, repairs: 2 });
    expect(repairsOf(b, RULE).map((r) => r.title)).toEqual([expect.stringContaining('6 cells'), expect.stringContaining('12.8 V')]);
  });

  it('behind the dash it gets 70 °C: six cells at 15 V stand 2.3 V there', () => {
    const b = withStore().zone('seat', { kind: 'dash' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('store'), figures: { 'a cell stands': 2.3 }, says: ['70 °C'], repairs: 2 });
  });

  it('no store, nothing to say', () => quiet(bench(), RULE));
});
