import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import { behave, corner, element, settings } from '../situation.ts';

const variant = (name: string, id: string) => {
  const found = partKind(name).variants?.find((v) => v.id === id);
  if (!found) throw new Error(`${name} has no variant ${id}`);
  return found.settings;
};

describe('blade fuse', () => {
  const fuse = partKind('blade-fuse');
  it('has the cold resistance of its rating', () => {
    // A fuse maker's sheet for the regular blade as quoted in public documents: 10 A 7.7 mohm, 1 A 123 mohm (read).
    expect(element(behave(fuse, { ratingA: 10 }), 'fuse', 'resistor').ohm).toBeCloseTo(0.0077, 9);
    expect(element(behave(fuse, { ratingA: 1 }), 'fuse', 'resistor').ohm).toBeCloseTo(0.123, 9);
  });
  it('lets the worst case reach the drop at rated current', () => {
    // Same sheet: 176 mV at 1 A, 109 mV at 10 A, 141 mV at 2 A (read).
    for (const [ratingA, dropV] of [
      [1, 0.176],
      [2, 0.141],
      [10, 0.109],
    ] as const) {
      const e = element(behave(fuse, { ratingA }), 'fuse', 'resistor');
      expect(ratingA * corner(e, 'ohm', 'up')).toBeGreaterThanOrEqual(dropV);
    }
  });
  it('names rating, colour and voltage class on the list', () => {
    // Blue for 15 A: ISO 8820-3 colours, read.
    const spec = fuse.spec(settings(fuse, { ratingA: 15, voltClass: '58' }));
    expect(spec).toContain('15 A');
    expect(spec).toContain('blue');
    expect(spec).toContain('58 V');
    expect(spec).toContain('1000 A');
  });
  it('is a fuse to the tracer and chosen automatically until typed', () => {
    expect(fuse.facts(settings(fuse, { ratingA: 7.5 })).links?.[0]).toMatchObject({ type: 'fuse', ratingA: 7.5 });
    expect(fuse.settings.find((s) => s.key === 'ratingA')?.automatic).toBe(true);
  });
});

describe('surge clamp', () => {
  const clamp = partKind('surge-clamp');
  it('breaks down inside the range of its sheet', () => {
    // 24 V stand-off, 600 W: breakdown 26.7 to 29.5 V at 25 degrees C, 38.9 V at 15.4 A (data sheet, read).
    const e = element(behave(clamp, variant('surge-clamp', 'c24'), { ambientC: 25 }), 'clamp', 'zener');
    expect(corner(e, 'vBr', 'down')).toBeCloseTo(26.7, 6);
    expect(corner(e, 'vBr', 'up')).toBeCloseTo(29.5, 6);
    expect(corner(e, 'vBr', 'up') + 15.4 * e.ohm).toBeCloseTo(38.9, 6);
  });
  it('breaks down lower in the cold: a 24 V type conducts in a 26 V jump start at -30 degrees C', () => {
    // 26.7 V less 0.1 %/K over 55 K is 25.2 V, calculated.
    const e = element(behave(clamp, variant('surge-clamp', 'c24'), { ambientC: -30 }), 'clamp', 'zener');
    expect(corner(e, 'vBr', 'down')).toBeCloseTo(25.2, 1);
    const e33 = element(behave(clamp, {}, { ambientC: -40 }), 'clamp', 'zener');
    expect(corner(e33, 'vBr', 'down')).toBeGreaterThan(26);
  });
  it('minds polarity unless it works both ways', () => {
    expect(clamp.facts(settings(clamp)).polar?.[0]).toMatchObject({ plus: 'K', minus: 'A', reverseV: 0 });
    expect(clamp.facts(settings(clamp, { bidirectional: true })).polar).toBeUndefined();
  });
});

describe('reverse guard', () => {
  const guard = partKind('reverse-guard');
  it('drops 0.1 V at 5 A as a transistor', () => {
    expect(5 * element(behave(guard, {}, { on: () => true }), 'guard', 'resistor').ohm).toBeCloseTo(0.1, 9);
  });
  it('is a diode that drops less when hot', () => {
    // Schottky diodes lose about 1.2 mV/K, junctions 2 mV/K: textbook figures, from memory.
    const v = (id: string, ambientC: number) => element(behave(guard, variant('reverse-guard', id), { ambientC }), 'guard', 'diode').vF;
    expect(v('series-diode-60', 25)).toBeCloseTo(0.55, 9);
    expect(v('series-diode-60', 75)).toBeCloseTo(0.49, 9);
    expect(v('series-diode-200', 75)).toBeCloseTo(0.75, 9);
    expect(guard.facts(settings(guard, variant('reverse-guard', 'series-diode-60'))).links).toEqual([{ a: 'in', b: 'out', type: 'diode' }]);
  });
  it('draws gate current only with a gate clamp and a ground wire', () => {
    const ids = (b: ReturnType<typeof behave>) => b.elements.map((e) => e.id);
    expect(ids(behave(guard))).toEqual(['guard', 'body', 'gate', 'gatePull']);
    expect(ids(behave(guard, { clamped: false }))).toEqual(['guard', 'body']);
    expect(ids(behave(guard, {}, { wired: () => false }))).toEqual(['guard', 'body']);
  });
});

describe('diode', () => {
  const diode = partKind('diode');
  it('follows its sheet at 25 degrees C', () => {
    // 1N4148: 1.0 V greatest at 10 mA (data sheet, read), 0.72 V typical (a course note, read).
    const e = element(behave(diode, { type: '1n4148' }, { ambientC: 25 }), 'd', 'diode');
    expect(e).toMatchObject({ a: 'A', b: 'K', vF: 0.72, iF: 0.01 });
    expect(corner(e, 'vF', 'up')).toBeCloseTo(1.0, 9);
  });
  it('says on the list what reverse voltage must not be lowered', () => {
    // 1N5819: 40 V, 1 A (data sheet, read).
    const spec = diode.spec(settings(diode, { type: '1n5819' }));
    expect(spec).toContain('40 V');
    expect(spec).toContain('1 A');
  });
});
