import { describe, expect, it } from 'vitest';
import { clean, compute, flagged } from './harness.ts';
import { bench, fused, ground } from './plans.ts';

const RULE = 'short-drawn';

describe('a short circuit is drawn in the plan', () => {
  it('the bench has none', () => clean(bench(), RULE));

  it('feed to ground behind the fuse', () => {
    const b = bench().wire('fuse.2', 'ground.31', {}, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('wrong'), figures: { 'volts shorted': 12 }, says: ['ground'], repairs: 1 });
  });

  it('12 V and 5 V on one splice when the master switch is on', () => {
    const b = bench()
      .part('switch', 'master-switch', 'seat', { closed: false })
      .wire('relay.87', 'switch.1', {}, 'hot')
      .wire('switch.2', 'converter.out', {}, 'wrong');
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.wireId('wrong'),
      figures: { 'volts shorted': 12 - 5.12 },
      says: ['as soon as'],
      repairs: 1,
    });
  });

  it('5 V on the 3.3 V pin', () => {
    const b = bench().wire('converter.out', 'computer.17', {}, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('wrong'), figures: { 'volts shorted': 5.12 - 3.3 }, repairs: 1 });
  });

  it('5 V on a ground pin of the header', () => {
    const b = bench().wire('converter.out', 'computer.39', {}, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('wrong'), says: ['ground'], repairs: 1 });
  });

  it('87 and 87a are never closed together', () => {
    const b = fused('changeover')
      .part('relay', 'relay', 'dash')
      .part('camera', 'camera', 'dash')
      .wire('fuse.2', 'relay.87')
      .wire('relay.87a', 'ground.31', {}, 'rest')
      .wire('relay.30', 'camera.+')
      .wire('camera.-', 'ground.31');
    clean(b, RULE);
    b.cut('rest').wire('relay.30', 'ground.31', {}, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('wrong'), says: ['as soon as'], repairs: 1 });
  });

  it('a button from 5 V to ground is one while it is pressed', () => {
    const b = bench().part('button', 'push-button', 'desk').wire('button.1', 'converter.out').wire('button.2', 'ground.31', {}, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('wrong'), repairs: 1 });
  });

  it('everything that a short throws off folds under its card', () => {
    const b = ground('post to body').wire('battery.+', 'ground.31', {}, 'wrong');
    const { cards } = compute(b).report;
    expect(cards.filter((c) => c.level === 'hazard').map((c) => c.rule)).toEqual([RULE]);
  });
});
