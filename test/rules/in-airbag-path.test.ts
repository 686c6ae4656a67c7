import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'in-airbag-path';

describe('something lies where an airbag unfolds', () => {
  it('a box on the passenger’s panel', () => {
    const b = bench().zone('seat', { bag: 'yes' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), says: ['Under the seat'] });
  });

  it('a wire that only passes there', () => {
    const b = bench().part('button', 'push-button', 'desk').wire('button.1', 'ground.31', {}, 'through').zone('seat', { bag: 'yes' });
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('through'), says: ['passes'] });
  });

  it('looked at, and no bag there', () => {
    clean(bench().zone('seat', { bag: 'no' }), RULE);
    clean(bench().zone('desk', { bag: 'yes' }), RULE);
  });

  it('somebody does not know', () => {
    unsure(bench().zone('seat', { bag: 'unknown' }), RULE, 'Under the seat');
  });

  it('nobody has said: the checklist asks', () => {
    quiet(bench(), RULE);
  });
});
