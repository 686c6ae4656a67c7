import { describe, it } from 'vitest';
import { camera } from '../../src/rules/book/examples/return-too-thin.ts';
import { clean, compute, findingsOf, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'return-too-thin';

/** Three cameras behind 5, 3 and 2 A, with one ground wire for all of them under the seat (60 °C: the planning table as it stands). */
const shared = (areaMm2: number): Bench => {
  const b = ground('shared return')
    .part('feed30', 'feed-30', 'seat', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('far', 'chassis-ground', 'seat', { place: 'body-stud' })
    .part('splice', 'splice', 'seat')
    .wire('battery.+', 'feed30.in', { owner: 'vehicle' });
  [5, 3, 2].forEach((ratingA, i) => {
    b.part(`fuse${i}`, 'blade-fuse', 'seat', { ratingA })
      .part(`camera${i}`, 'camera', 'seat')
      .wire('feed30.out', `fuse${i}.1`, { lengthM: 0.1 })
      .wire(`fuse${i}.2`, `camera${i}.+`, { lengthM: 0.5, areaMm2: 1.5 })
      .wire(`camera${i}.-`, 'splice.s', { lengthM: 0.5, areaMm2: 1.5 });
  });
  return b.wire('splice.s', 'far.31', { lengthM: 1, areaMm2 }, 'return');
};

describe('ground wire thinner than what it must bring back', () => {
  it('automatic sizes are in order', () => clean(bench(), RULE));

  it('three feeds of 5, 3 and 2 A and one 0.35 mm² return, which may carry 3 A', () => {
    const b = shared(0.35);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('return'), figures: { 'planning limit': 3 }, repairs: 1 });
  });

  it('1.5 mm² (15 A) brings it back', () => clean(shared(1.5), RULE));

  it('either side of the fuse: 5 A over 0.5 mm² (5 A at 60 °C), and 7.5 A', () => {
    clean(camera(5), RULE);
    const b = camera(7.5);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('return'), figures: { 'must bring back': 7.5, 'planning limit': 5 }, repairs: 1 });
  });

  it('a fuse too big for feed and return is one card', () => {
    const b = bench().set('fuse', { ratingA: 20 }).wireSet('feed', { areaMm2: 1.5 }).wireSet('return', { areaMm2: 1.5 });
    const results = compute(b);
    if (findingsOf(results, RULE).length === 0) throw new Error('the return is not flagged');
    const cards = results.report.cards.map((c) => c.rule);
    if (cards.includes(RULE)) throw new Error(`a card of its own beside ${cards.join(', ')}`);
  });

  it('says nothing where nothing comes back', () => quiet(ground(), RULE));
});
