import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, bench, fused, ground } from './plans.ts';
import { withCutout } from './plansSense.ts';

const RULE = 'long-use-engine-off';

/** 1.6 A on a battery of 45 Ah. */
function used(engineOffH?: number): Bench {
  return fused('market stall', { batteryAh: 45, ...(engineOffH === undefined ? {} : { engineOffH }) })
    .part('camera', 'camera', 'dash', { typA: 1.6, nightA: 1.6 })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });
}

describe('used too long with the engine off', () => {
  // Worked by hand: 1.6 A x 8 h = 12.8 Ah against 0.2 x 45 = 9 Ah; 4 h take 6.4 Ah.
  it('8 h at 1.6 A from 45 Ah', () => {
    const b = used(8);
    flagged(b, RULE, {
      level: 'advice',
      subject: b.plan.id,
      figures: { taken: 12.8, allowed: 9, 'hours allowed': 5.625 },
      says: ['8 h', '13 Ah', '5.6 h of it'],
      repairs: 1,
    });
  });

  it('4 h take 6.4 Ah', () => {
    clean(used(4), RULE);
  });

  it('just either side of 5.625 h', () => {
    clean(used(5.6), RULE);
    const b = used(5.65);
    flagged(b, RULE, { level: 'advice', subject: b.plan.id, repairs: 1 });
  });

  it('a cut-out ends it in time', () => {
    clean(withCutout('cut-out', { engineOffH: 24 }), RULE);
  });

  it('asks for the hours where they matter', () => {
    unsure(used(), RULE, 'hours at a time');
    clean(used().set('camera', { typA: 0.2, nightA: 0.2 }), RULE);
    unsure(bench(), RULE, 'hours at a time');
    quiet(ground(), RULE);
  });
});
