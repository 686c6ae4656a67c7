import { describe, expect, it } from 'vitest';
import { applyOrThrow } from './applied.ts';
import { clean, compute, findingsOf, flagged, repairsOf } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'wire-fuse-too-big';
const HEAT_70 = Math.sqrt(35 / 45);

describe('fuse bigger than the wire behind it', () => {
  it('automatic sizes are in order', () => clean(bench(), RULE));

  it('10 A before 0.5 mm²: it may carry 5 A at 60 °C, 4.4 A where it crosses the dash at 70 °C', () => {
    const b = bench().set('fuse', { ratingA: 10 }).wireSet('feed', { areaMm2: 0.5 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { 'can persist': 10, 'planning limit': 5 * HEAT_70 }, repairs: 1 });
  });

  it('0.5 mm² with 70 °C insulation at 70 °C may carry nothing: the repair takes other insulation', () => {
    const b = bench().wireSet('feed', { areaMm2: 0.5, insulationC: 70 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { 'planning limit': 0 }, repairs: 1 });
  });

  it('a converter that gives 8 A for ever before 0.5 mm² (5 A)', () => {
    const b = bench().wireSet('five', { areaMm2: 0.5 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'can persist': 8, 'planning limit': 5 }, repairs: 1 });
  });

  it('a thin tail behind two fuses in parallel may see the sum of both', () => {
    const b = fused('two ways', {})
      .set('fuse', { ratingA: 5 })
      .part('fuse2', 'blade-fuse', 'dash', { ratingA: 5 })
      .part('lamp', 'camera', 'dash')
      .wire('feed30.out', 'fuse2.1', { lengthM: 0.12 })
      .part('splice', 'splice', 'dash')
      .wire('fuse.2', 'splice.s', { areaMm2: 1, lengthM: 0.5 })
      .wire('fuse2.2', 'splice.s', { areaMm2: 1, lengthM: 0.5 })
      .wire('splice.s', 'lamp.+', { areaMm2: 0.75, lengthM: 0.5 })
      .wire('lamp.-', 'ground.31', { areaMm2: 1.5, lengthM: 0.5 });
    // The tail may see 10 A and carry 7.5 A x 0.88 = 6.6 A.
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { 'can persist': 10, 'planning limit': 7.5 * HEAT_70 }, repairs: 1 });
  });

  it('no smaller fuse is offered that the filling of the capacitors would eat', () => {
    // The load alone would do with 2 A; a fuse maker's pulse table (read) leaves 22 % of its melting integral for each filling.
    const surged = (farad: number) => bench().set('fuse', { ratingA: 15 }).wireSet('feed', { areaMm2: 0.5 }).set('bulk', { farad, esrOhm: 0.01 });
    for (const farad of [470e-6, 4700e-6]) {
      const b = surged(farad);
      flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), repairs: 1 });
      for (const offer of repairsOf(b, RULE)) expect(findingsOf(compute(applyOrThrow(b.plan, offer.edit)), 'fuse-eaten-by-surge'), offer.title).toEqual([]);
    }
  });

  it('either side of the wire’s limit: 0.5 mm² carries 5 A at 60 °C', () => {
    // The feed starts in the dash, so the dash is made as cool as the seat.
    const cool = (ratingA: number) => bench().zone('dash', { maxC: 60 }).set('fuse', { ratingA }).wireSet('feed', { areaMm2: 0.5 });
    clean(cool(5), RULE);
    const b = cool(7.5);
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { 'can persist': 7.5, 'planning limit': 5 }, repairs: 1 });
  });
});
