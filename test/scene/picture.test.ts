import { describe, expect, it } from 'vitest';
import { setWire } from '../../src/plan/edits.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { scenePrimitives, tagPrimitives, wirePrimitives } from '../../src/scene/picture.ts';
import { done, planOf, smallBuild } from './plans.ts';

describe('the picture', () => {
  const { plan, wires } = smallBuild();
  const scene = buildScene(plan);

  it('names every zone with its temperature and every run with its length', () => {
    const texts = scenePrimitives(scene).flatMap((p) => (p.t === 'text' ? [p.text] : []));
    for (const zone of scene.zones) {
      expect(texts).toContain(zone.name);
      expect(texts).toContain(`${zone.maxC} °C`);
    }
    expect(texts).toEqual(expect.arrayContaining(['1.4 m', '2.2 m', '2.4 m']));
    const feet = scenePrimitives(scene, { lengthText: (m) => `${(m / 0.3048).toFixed(1)} ft` }).flatMap((p) => (p.t === 'text' ? [p.text] : []));
    expect(feet).toContain('4.6 ft');
  });

  it('draws a stripe on striped insulation and an edge round white', () => {
    const striped = wirePrimitives(scene.wires.get(wires[2] ?? '') ?? fail(), scene.zones);
    expect(striped.map((p) => p.t === 'line' && p.ink)).toEqual(expect.arrayContaining(['wire-RD', 'wire-WH']));
    const white = buildScene(done(plan, setWire(plan, wires[2] ?? '', { colour: 'WH', stripe: undefined })));
    const lines = wirePrimitives(white.wires.get(wires[2] ?? '') ?? fail(), white.zones);
    expect(lines[0]).toMatchObject({ ink: 'edge' });
  });

  it('opens a gap under the upper wire at each crossing', () => {
    const cross = planOf(
      [
        { key: 'a', kind: 'resistor', zone: 'z3', x: 40, y: 140 },
        { key: 'b', kind: 'resistor', zone: 'z3', x: 300, y: 140 },
        { key: 'c', kind: 'resistor', zone: 'z3', x: 190, y: 20, turn: 1 },
        { key: 'd', kind: 'resistor', zone: 'z3', x: 190, y: 240, turn: 1 },
      ],
      [
        { from: ['a', '2'], to: ['b', '1'] },
        { from: ['c', '2'], to: ['d', '1'] },
      ],
    );
    const drawn = buildScene(cross.plan);
    const [lower, upper] = cross.wires.map((id) => drawn.wires.get(id) ?? fail());
    expect(lower?.crossings).toEqual([]);
    expect(upper?.crossings).toHaveLength(1);
    const gap = wirePrimitives(upper ?? fail(), drawn.zones)[0];
    expect(gap).toMatchObject({ t: 'line', ink: 'zone-a' });
  });

  it('tags numbered wires only', () => {
    expect(tagPrimitives(scene.wires.get(wires[1] ?? '') ?? fail()).some((p) => p.t === 'text' && p.text === 'W1')).toBe(true);
    expect(tagPrimitives(scene.wires.get(wires[6] ?? '') ?? fail())).toEqual([]);
  });
});

function fail(): never {
  throw new Error('no such wire');
}
