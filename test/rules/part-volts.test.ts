import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, bench, fused, ground } from './plans.ts';

const RULE = 'part-volts';

const camera = (settings: Record<string, number>, vehicle = {}): Bench =>
  fused('camera', vehicle).part('camera', 'camera', 'dash', settings).wire('fuse.2', 'camera.+', { lengthM: 1 }).wire('camera.-', 'ground.31', { lengthM: 1 });

describe('part not made for this vehicle’s voltage', () => {
  it('a 12 V camera that stands 18 V on a 24 V harvester, which runs at up to 32 V (ISO 16750-2, read)', () => {
    const b = camera({ absMaxV: 18 }, { systemV: 24 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('camera'), figures: { stands: 18, 'reaches it': 32 }, repairs: 1 });
  });

  it('a camera for 9 to 36 V that stands 60 V, where the alternator clamps at 58 V', () => clean(camera({ maxV: 36, absMaxV: 60 }, { systemV: 24 }), RULE));

  it('either side of 16 V in a 12 V vehicle', () => {
    const b = camera({ maxV: 15.9, absMaxV: 60 });
    flagged(b, RULE, { level: 'fault', subject: b.id('camera'), figures: { stands: 15.9, 'reaches it': 16 } });
    clean(camera({ maxV: 16.1, absMaxV: 60 }), RULE);
    const weak = camera({ maxV: 15.9, absMaxV: 15.9 });
    flagged(weak, RULE, { level: 'hazard', subject: weak.id('camera') });
  });

  it('what is destroyed below the load dump: 35 V clamped (ISO 16750-2 test B, read), either side', () => {
    const b = camera({ maxV: 30, absMaxV: 34 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('camera'), figures: { stands: 34, 'reaches it': 35 } });
    clean(camera({ maxV: 30, absMaxV: 36 }), RULE);
    // With nobody having answered whether the alternator clamps, the worst is taken: the answer is one repair.
    const open = camera({ maxV: 36, absMaxV: 40 }, { centralClamping: 'unknown' });
    flagged(open, RULE, { level: 'hazard', subject: open.id('camera'), figures: { 'reaches it': 101 }, repairs: 1 });
  });

  it('what nobody has looked up', () => unsure(camera({}), RULE, 'load dump'));

  it('coils and timers of 12 V in a 12 V vehicle; a 12 V coil in a 24 V one', () => {
    clean(bench(), RULE);
    const b = bench('24', { systemV: 24 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('relay'), figures: { stands: 16, 'reaches it': 32 }, repairs: 1 });
  });

  it('12 V from the middle of a 24 V pair: half of every figure, another rule’s hazard', () =>
    clean(camera({ maxV: 16, absMaxV: 18 }, { systemV: 24 }).set('feed30', { pair: 'half' }), RULE));

  it('says nothing where nothing is fed', () => quiet(ground(), RULE));
});
