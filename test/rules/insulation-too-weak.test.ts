import { describe, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'insulation-too-weak';

describe('insulation too weak for where the wire lies', () => {
  it('the automatic class leaves 10 K everywhere', () => clean(bench(), RULE));

  it('house wiring of 70 °C where it crosses the dash of 70 °C', () => {
    const b = bench().wireSet('feed', { insulationC: 70 });
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('feed'), figures: { insulation: 70, 'hottest place': 70 }, repairs: 1 });
  });

  it('either side of 10 K, with the place set by hand', () => {
    clean(bench().zone('dash', { maxC: 75 }).wireSet('feed', { insulationC: 85 }), RULE);
    const b = bench().zone('dash', { maxC: 76 }).wireSet('feed', { insulationC: 85 });
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('feed'), repairs: 1 });
  });

  it('105 °C wire in the engine bay of 105 °C', () => {
    const b = bench().part('bay', 'splice', 'bay').wire('fuse.2', 'bay.s', { insulationC: 105 }, 'hot');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('hot'), says: ['105 °C'], repairs: 1 });
  });

  it('what follows from it is on its card', () => {
    const cards = compute(bench().wireSet('feed', { insulationC: 70, areaMm2: 1.5 })).report.cards.map((c) => c.rule);
    if (!cards.includes(RULE) || cards.includes('wire-fuse-too-big') || cards.includes('wire-overloaded')) throw new Error(cards.join(', '));
  });

  it('says nothing without a wire of ours', () => quiet(ground(), RULE));
});
