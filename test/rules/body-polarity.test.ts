import { describe, expect, it } from 'vitest';
import { clean, compute, findingsOf, flagged, quiet, repairsOf, unsure } from './harness.ts';
import { bench, fused, ground } from './plans.ts';
import { withSound } from './plansSense.ts';

const RULE = 'body-polarity';
const old = { polarity: 'positive-ground' } as const;

describe('the body may be battery positive', () => {
  it('negative ground', () => clean(bench(), RULE));

  it('a van of 1960 with our ground on the body: a dead short', () => {
    const b = bench('van of 1960', old);
    flagged(b, RULE, { level: 'hazard', subject: b.id('ground') });
  });

  it('a wire of ours on the vehicle’s own strap is no better than a screw of ours', () => {
    const b = bench('strap', old).without('ground').wire('converter.gnd', 'strap.31', { lengthM: 3 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('strap') });
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

  it('our wire on the vehicle’s own strap is no better than one on a screw of ours', () => {
    const b = bench('strap', old).without('ground').wire('converter.gnd', 'strap.31', { lengthM: 3 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('strap'), says: ['dead short'] });
  });

  // The catalogue’s own example: a van of 1960, the computer’s case bolted to its body.
  it('a metal case of ours on the body is a short through the case, a case on plastic feet is none', () => {
    const off = () => bench('off the body', old).without('ground').wire('converter.gnd', 'battery.-', { lengthM: 3 });
    clean(off().set('computer', { caseBonded: false }), RULE);
    const b = off().set('computer', { caseBonded: true });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), says: ['dead short through it'], repairs: 1 });
    expect(repairsOf(b, RULE).map((r) => [r.title, r.safe])).toEqual([['Mount A1 computer insulated', false]]);
  });

  it('a camera’s shell too, joined to its minus or not', () => {
    const camera = (shellBonded: boolean) =>
      fused('camera', old)
        .without('ground')
        .part('camera', 'camera', 'dash', { shellBonded })
        .wire('fuse.2', 'camera.+', { lengthM: 1 })
        .wire('camera.-', 'battery.-', { lengthM: 3 });
    clean(camera(false), RULE);
    const b = camera(true);
    flagged(b, RULE, { level: 'hazard', subject: b.id('camera'), repairs: 1 });
    // With nothing on its minus it joins nothing to the body.
    clean(fused('loose', old).without('ground').part('camera', 'camera', 'dash', { shellBonded: true }).wire('fuse.2', 'camera.+'), RULE);
  });

  it('behind an isolator the radio’s screen stays clear of our 0 V, though a ground screw of ours is on the body', () => {
    const b = withSound(bench('both', old)).part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a').wire('isolator.b', 'aux.aux');
    expect(findingsOf(compute(b), RULE).map((f) => f.subject.id)).toEqual([b.id('ground')]);
  });

  it('where the battery’s negative post is on the body a metal case there is no short', () => clean(bench().set('computer', { caseBonded: true }), RULE));

  it('nobody knows', () => unsure(bench('unknown', { polarity: 'unknown' }), RULE, 'which post'));

  it('says nothing of an empty plan', () => quiet(ground().without('ground'), RULE));
});
