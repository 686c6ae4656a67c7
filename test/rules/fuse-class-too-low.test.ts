import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'fuse-class-too-low';
const lorry = () => bench('lorry', { systemV: 24 }).set('senseFuse', { voltClass: '58' });

/** A fuse at the battery's post with short wires; the bench battery has 5 mΩ at the posts. */
const atPost = (ratingA: number, lengthM = 0.1): Bench =>
  ground('at the post')
    .part('fuse', 'blade-fuse', 'bay', { ratingA })
    .part('camera', 'camera', 'dash')
    .wire('battery.+', 'fuse.1', { lengthM, areaMm2: 6 })
    .wire('fuse.2', 'camera.+', { lengthM: 2, areaMm2: 6 })
    .wire('camera.-', 'ground.31', { lengthM: 1, areaMm2: 6 });

describe('fuse cannot break what stands behind it', () => {
  it('32 V blades in a 12 V vehicle', () => clean(bench(), RULE));

  it('32 V class in a 24 V vehicle: 32 V is its highest supply, but a load dump brings 58 V (ISO 16750-2, read)', () => {
    const b = lorry();
    flagged(b, RULE, { level: 'advice', subject: b.id('fuse'), figures: { class: 32, 'load dump': 58 }, says: ['58 V'], repairs: 1 });
    clean(lorry().set('fuse', { voltClass: '58' }), RULE);
  });

  // Test A of ISO 16750-2 (read): 202 V where nothing clamps. ISO 8820-3 has no class above 58 V.
  it('an alternator that does not clamp brings 202 V, also when nobody has said that it does; the highest class is all one can fit', () => {
    for (const centralClamping of ['no', 'unknown'] as const) {
      const b = lorry().vehicle({ centralClamping });
      flagged(b, RULE, { level: 'advice', subject: b.id('fuse'), figures: { class: 32, 'load dump': 202 }, says: ['202 V', 'clamp'], repairs: 1 });
      clean(lorry().vehicle({ centralClamping }).set('fuse', { voltClass: '58' }), RULE);
    }
  });

  it('on the middle of a 24 V pair a fuse sees one battery: its load dump is half', () => {
    const middle = (pair: string) => lorry().set('feed30', { pair }).set('fuse', { voltClass: '32' });
    clean(middle('half'), RULE);
    const b = middle('whole');
    flagged(b, RULE, { level: 'advice', subject: b.id('fuse'), figures: { 'load dump': 58 } });
  });

  it('a 16 V breaker in a 24 V lorry', () => {
    const b = lorry().set('fuse', { voltClass: '16' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { class: 16, 'highest supply': 32 }, repairs: 1 });
    clean(bench().set('fuse', { voltClass: '16' }), RULE);
  });

  // IEC 60127-2, low breaking capacity (from memory): 35 A, or ten times the rating where that is more.
  it('nothing printed for direct current: a glass fuse of 5 A is sure to break 50 A, and a short behind the radio draws more', () => {
    const b = bench().set('fuse', { ratingA: 5, voltClass: 'none' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { breaks: 50 }, says: ['printed'], repairs: 1 });
    // 2 A: ten times the rating are less than 35 A.
    const small = bench().set('fuse', { ratingA: 2, voltClass: 'none' });
    flagged(small, RULE, { level: 'hazard', subject: small.id('fuse'), figures: { breaks: 35 }, repairs: 1 });
    const typed = bench().set('fuse', { ratingA: 5, voltClass: 'none', breakA: 40 });
    flagged(typed, RULE, { level: 'hazard', subject: typed.id('fuse'), figures: { breaks: 40 }, repairs: 1 });
  });

  it('where a short cannot draw so much, or its breaking current is typed, it is advice', () => {
    // 12.6 V over 0.3 Ω of source and more: less than 42 A.
    const b = bench().set('fuse', { ratingA: 5, voltClass: 'none' }).set('feed30', { sourceMinOhm: 0.3, sourceMaxOhm: 0.4 });
    flagged(b, RULE, { level: 'advice', subject: b.id('fuse'), repairs: 1 });
    const typed = bench().set('fuse', { ratingA: 5, voltClass: 'none', breakA: 1500 });
    flagged(typed, RULE, { level: 'advice', subject: typed.id('fuse'), repairs: 1 });
  });

  it('30 A at the post: 12.6 V over 5 mΩ, 2 × 0.1 m of 6 mm² and its own 2 mΩ is above 1000 A', () => {
    const b = atPost(30);
    const ohm = 0.005 + Math.max(1e-3, (2 * 0.1 * 0.017241) / 6) + 1.97e-3;
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { 'greatest short-circuit current': 12.6 / ohm, breaks: 1000 }, repairs: 1 });
  });

  it('either side of 1000 A: the way in front decides', () => {
    // 12.6 mΩ are wanted: 5 mΩ of battery, 2.0 of fuse, so 5.6 mΩ of wire: 2 × 0.98 m of 6 mm².
    clean(atPost(30, 1.0), RULE);
    const b = atPost(30, 0.95);
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse') });
    // A small fuse holds the current down by itself: 17.85 mΩ (a maker's sheet).
    clean(atPost(5), RULE);
  });

  it('a glass fuse that breaks 35 A behind the radio', () => {
    const b = bench().set('fuse', { breakA: 35 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { breaks: 35 }, repairs: 1 });
  });
});
