import { describe, expect, it } from 'vitest';
import { termsIn } from '../../src/faces/termsIn.ts';
import { meaningOf } from '../../src/trade/terms.ts';

const found = (text: string) => termsIn(text).flatMap((p) => (p.word === null ? [] : [p.word]));

describe('trade terms in running text', () => {
  it('finds a term whole, in any case, with its plural', () => {
    expect(found('The Hold relay opens and both optocouplers go dark.')).toEqual(['hold relay', 'optocoupler']);
  });

  it('prefers the longer term and marks each only once', () => {
    expect(found('A pull-up beats a pull-down; a pull-up of 10 kΩ.')).toEqual(['pull-up', 'pull-down']);
    expect(found('the drop-out voltage')).toEqual(['drop-out voltage']);
  });

  it('leaves everyday words and parts of words alone', () => {
    expect(found('Move the fuse; the load on the ground wire will drop.')).toEqual([]);
    expect(found('crimped, relaying, undiode')).toEqual([]);
  });

  it('loses nothing of the text', () => {
    const text = 'A load dump of 101 V, clamped by a TVS (see above), ends the step-down.';
    expect(
      termsIn(text)
        .map((p) => p.text)
        .join(''),
    ).toBe(text);
  });

  it('names only words that have a meaning', () => {
    for (const word of found('load dump, schottky, TVS, planning limit, parked draw, wetting current, GPIO')) expect(meaningOf(word)).toBeTruthy();
  });
});
