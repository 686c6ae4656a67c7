import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'ground-place-unfit';

// Which places are forbidden and which are poor: makers' instructions and fitters' practice, as told in the trade table.
describe('ground wire on a bolt that is not meant for it', () => {
  it('a stud of the vehicle', () => {
    clean(bench(), RULE);
    clean(bench().set('ground', { place: 'dash-stud' }), RULE);
    clean(bench().set('ground', { place: 'strapped-cab' }).part('spare', 'chassis-ground', 'seat').wire('spare.31', 'ground.31'), RULE);
  });

  it.each(['seat-belt-bolt', 'seat-frame-bolt', 'steering-column', 'fuel-or-brake-pipe'])('%s: a hazard', (place) => {
    const b = bench().set('ground', { place });
    flagged(b, RULE, { level: 'hazard', subject: b.id('ground'), says: ['comes home there'], repairs: 1 });
  });

  it.each(['painted-bolt', 'trim-screw'])('%s: a fault', (place) => {
    const b = bench().set('ground', { place });
    flagged(b, RULE, { level: 'fault', subject: b.id('ground'), repairs: 1 });
  });

  it('leaves hinges to their own rule, and a bolt that nothing hangs on alone', () => {
    quiet(bench().set('ground', { place: 'hinge' }), RULE);
    quiet(ground().set('ground', { place: 'seat-belt-bolt' }), RULE);
  });

  it('what the vehicle itself bolts there is not ours', () => {
    quiet(ground().set('strap', { place: 'painted-bolt' }), RULE);
  });
});
