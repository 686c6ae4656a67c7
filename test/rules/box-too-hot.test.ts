import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'box-too-hot';
const boxed = (box: string, kind: 'dash' | 'under-seat'): Bench => bench().set('computer', { box }).zone('seat', { kind });

describe('computer too hot in its box', () => {
  // 6 W, 5 K/W, dash at 60 °C while running: 90 °C. With a fan, 1 K/W: 66 °C.
  it('a small plastic box behind the dash', () => {
    const b = boxed('closed', 'dash');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { heat: 6.1, 'air inside': 90.6 }, repairs: 1 });
    clean(boxed('fan', 'dash'), RULE);
  });

  // Vented box under the seat: 45 °C + 6.1 W × 3 K/W = 63 °C.
  it('with holes under the seat it is well', () => {
    clean(boxed('vented', 'under-seat'), RULE);
  });

  // Behind the dash, 60 °C: 78.4 °C. Chips throttle at 80 to 85 °C (from memory): below that only while it works hard.
  it('with holes behind the dash it is slow in high summer, which is advice', () => {
    const b = boxed('vented', 'dash');
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'air inside': 78.4 }, says: ['above 70 °C', 'while it works hard'], repairs: 1 });
    const unsaid = bench().zone('seat', { kind: 'dash' });
    flagged(unsaid, RULE, { level: 'advice', subject: unsaid.id('computer'), says: ['nobody has said'], repairs: 1 });
  });

  it('either side of 70 °C, or of what the person says', () => {
    // 45 °C + 6.12 W × 5 K/W = 75.6 °C
    const b = boxed('closed', 'under-seat');
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), figures: { 'air inside': 75.6 }, repairs: 1 });
    clean(boxed('closed', 'under-seat').threshold('boardAirMaxC', 76), RULE);
    const low = boxed('vented', 'under-seat').threshold('boardAirMaxC', 63);
    flagged(low, RULE, { level: 'advice', subject: low.id('computer') });
  });

  it('no computer, nothing to say', () => {
    quiet(ground(), RULE);
  });
});
