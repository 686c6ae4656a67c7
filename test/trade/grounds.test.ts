import { describe, expect, it } from 'vitest';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKind } from '../../src/parts/index.ts';
import { CASE_OHM, GROUND_PLACES, type GroundPlace, groundPlace, isFitGround } from '../../src/trade/grounds.ts';

// Fitters' practice and makers' fitting instructions: what one may bolt a ground to.
describe('places of grounds', () => {
  it('studs and the radio’s own ground are fit; whatever holds people, brakes, steering or paint is not', () => {
    expect(Object.keys(GROUND_PLACES).filter(isFitGround)).toEqual(['radio-ground', 'dash-stud', 'body-stud', 'strapped-cab']);
    expect(isFitGround('somewhere')).toBe(false);
    expect(groundPlace('somewhere')).toBeNull();
  });

  it('a fit place lies at or below 5 mΩ, an unfit one above, and says why', () => {
    for (const [id, place] of Object.entries(GROUND_PLACES) as [string, GroundPlace][]) {
      expect(place.ohm <= 0.005, id).toBe(isFitGround(id));
      if (place.unfit) expect(place.unfit.why).toMatch(/^[a-z].*[a-z]$/);
    }
  });

  it.each([
    ['computer', 'caseBonded'],
    ['camera', 'shellBonded'],
  ])('%s joins its 0 V to the body only where somebody has said so', (kind, key) => {
    const links = (yes: boolean) =>
      (partKind(kind).facts(settingsOf(partKind(kind), yes ? { [key]: true } : {})).links ?? []).filter((l) => l.b === '@chassis');
    expect(links(false)).toEqual([]);
    expect(links(true).map((l) => l.ohm)).toEqual([CASE_OHM]);
  });
});
