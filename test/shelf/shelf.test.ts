import { describe, expect, it } from 'vitest';
import { partKinds, partSets } from '../../src/parts/index.ts';
import { freeSpot } from '../../src/parts/spot.ts';
import { apply } from '../../src/plan/apply.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import { findItems, GROUPS, shelfItems } from '../../src/shelf/catalogue.ts';
import { likelyZone, placeInZone } from '../../src/shelf/place.ts';

const items = shelfItems();

describe('the shelf', () => {
  it('holds every part and every set once, in a group that is shown', () => {
    expect(
      items
        .filter((i) => i.type === 'part')
        .map((i) => i.id)
        .sort(),
    ).toEqual([...partKinds.keys()].sort());
    expect(items.filter((i) => i.type === 'set')).toHaveLength(partSets.size);
    for (const item of items) expect(GROUPS).toContain(item.group);
  });

  it('says in one sentence what each thing is', () => {
    for (const item of items) expect(item.about, item.key).toMatch(/\.$/);
  });

  it('finds by title first, then by search words, and needs every word', () => {
    expect(findItems(items, 'fuse')[0]?.title.toLowerCase()).toContain('fuse');
    expect(findItems(items, 'blade fuse').map((i) => i.id)).toContain('blade-fuse');
    expect(findItems(items, 'blade zebra')).toEqual([]);
    expect(findItems(items, '  ')).toBe(items);
  });

  it('finds the camera on a plug beside that on a supply lead', () => {
    expect(findItems(items, 'camera').map((i) => i.title)).toEqual(expect.arrayContaining(['Camera', 'USB camera']));
  });

  it('puts things beside what is chosen, else where most of the build stands, and into the first zone of a bare plan', () => {
    const bare = emptyPlan('t', {}, 't');
    const at = (id: string, zone: string) => ({ id, kind: 'resistor', owner: 'build' as const, zone, x: 0, y: 0, turn: 0 as const, settings: {} });
    const plan = { ...bare, parts: { ...bare.parts, p1: at('p1', 'z2'), p2: at('p2', 'z3'), p3: at('p3', 'z3') } };
    expect(likelyZone(bare, [])).toBe('z1');
    expect(likelyZone(plan, [])).toBe('z3');
    expect(likelyZone(plan, ['p1'])).toBe('z2');
    expect(likelyZone(plan, ['p1', 'p2'])).toBe('z3');
  });

  it('places every thing in an empty zone as one edit that holds', () => {
    const plan = emptyPlan('t', {}, 't');
    for (const item of items.flatMap((i) => [i, ...i.variants])) {
      const { edit, parts } = placeInZone(plan, item, 'z3');
      const done = apply(plan, edit);
      expect(done.ok, `${item.key} ${done.ok ? '' : done.reason}`).toBe(true);
      if (!done.ok) continue;
      expect(parts.length).toBeGreaterThan(0);
      for (const id of parts) expect(done.plan.parts[id]).toMatchObject({ zone: 'z3' });
    }
  });

  it('never lays one thing on another', () => {
    const taken = [{ x: 0, y: 0, w: 300, h: 200 }];
    const spot = freeSpot(taken, 100, 60);
    const clear = spot.x >= 300 || spot.y >= 200;
    expect(clear).toBe(true);
    expect(freeSpot([], 100, 60)).toEqual({ x: 30, y: 30 });
  });
});
