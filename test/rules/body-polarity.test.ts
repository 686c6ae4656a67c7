import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench, ground } from './plans.ts';
import { withSound } from './plansSense.ts';

const RULE = 'body-polarity';
const old = { polarity: 'positive-ground' } as const;

describe('the body may be battery positive', () => {
  it('negative ground', () => clean(bench(), RULE));

  it('a van of 1960 with our ground on the body: a dead short', () => {
    const b = bench('van of 1960', old);
    flagged(b, RULE, { level: 'hazard', subject: b.id('ground') });
  });

  it('the sound lead’s screen is as good as a ground screw', () => {
    const b = withSound(bench('old', old)).wire('sound.line', 'aux.aux', { lengthM: 1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('aux') });
  });

  it('a return to the battery’s post and nothing on the body', () => {
    const b = bench('isolated', old).without('ground').wire('converter.gnd', 'battery.-', { lengthM: 3 });
    clean(b, RULE);
    // An isolator in the sound lead keeps it off the body as well.
    const sound = withSound(b).part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a').wire('isolator.b', 'aux.aux');
    clean(sound, RULE);
  });

  it('nobody knows', () => unsure(bench('unknown', { polarity: 'unknown' }), RULE, 'which post'));

  it('says nothing of an empty plan', () => quiet(ground().without('ground'), RULE));
});
