import { describe, expect, it } from 'vitest';
import { settingsOf } from '../../src/parts/definePart.ts';
import { dropSet, partKind, partKinds, partSets, setPartSettings } from '../../src/parts/index.ts';
import type { SetDef } from '../../src/parts/types.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Id, Plan } from '../../src/plan/types.ts';
import { proven } from '../plan/laws.ts';

const SETS = [...partSets.values()].map((set) => [set.id, set] as const);
const PLAN12 = emptyPlan('Sets', {}, 'sets');
const PLAN24 = emptyPlan('Sets', { systemV: 24 }, 'sets24');

/** Body of a part of a set, turned, in the set's coordinates. */
function boxOf(part: SetDef['parts'][number]): { x: number; y: number; w: number; h: number } {
  const kind = partKind(part.kind);
  const s = settingsOf(kind, part.settings ?? {});
  const { w, h } = kind.symbol(s, kind.terminals(s));
  return (part.turn ?? 0) % 2 === 0 ? { x: part.x, y: part.y, w, h } : { x: part.x, y: part.y, w: h, h: w };
}

function dropped(plan: Plan, id: string): { readonly after: Plan; readonly ids: Readonly<Record<string, Id>> } {
  const { edit, ids } = dropSet(plan, id, 'z2', 40, 60);
  expect(edit.intent).toBe('set.add');
  return { after: proven(plan, edit), ids };
}

describe('sets', () => {
  it('are the ten that the shelf offers', () => {
    expect(SETS.map(([id]) => id).sort()).toEqual([
      'button-filter',
      'display-fused',
      'fused-feed-15',
      'fused-feed-30',
      'hold-relay',
      'hold-up-store',
      'key-sensor',
      'latch-with-button',
      'sound-isolated',
      'supply',
    ]);
  });

  it('refuses a set that is not there', () => {
    expect(() => dropSet(PLAN12, 'no-such-set', 'z1', 0, 0)).toThrow('no-such-set');
  });

  describe.each(SETS)('%s', (id, set) => {
    it('names kinds, terminals and settings that exist, within their limits', () => {
      const byKey = new Map(set.parts.map((p) => [p.key, p]));
      expect(byKey.size).toBe(set.parts.length);
      for (const p of set.parts) {
        expect(partKinds.has(p.kind), p.kind).toBe(true);
        for (const systemV of [12, 24] as const) {
          for (const [key, value] of Object.entries(setPartSettings(p, systemV))) {
            const setting = partKind(p.kind).settings.find((s) => s.key === key);
            expect(typeof value, `${p.key}.${key}`).toBe(typeof setting?.default);
            if (setting?.type === 'number') expect(Number(value) >= setting.min && Number(value) <= setting.max, `${p.key}.${key}`).toBe(true);
            if (setting?.type === 'choice') expect(setting.options.map((o) => o.value)).toContain(value);
          }
        }
      }
      for (const w of set.wires) {
        for (const [key, terminal] of [w.from, w.to]) {
          const part = byKey.get(key);
          expect(part, key).toBeDefined();
          const kind = partKind(part!.kind);
          expect(
            kind.terminals(settingsOf(kind, part!.settings ?? {})).map((t) => t.id),
            `${key}.${terminal}`,
          ).toContain(terminal);
        }
      }
    });

    it('says what it is for in one sentence', () => {
      expect(set.about).toMatch(/^[A-Z].*\.$/);
      expect(set.about).not.toMatch(/\bsafe\b/i);
    });

    it('lies on the raster without overlaps, near its drop point, its parts joined into one', () => {
      const boxes = set.parts.map(boxOf);
      for (const b of boxes) {
        expect(b.x % 10 === 0 && b.y % 10 === 0 && b.x >= 0 && b.y >= 0).toBe(true);
        expect(b.x + b.w <= 460 && b.y + b.h <= 200).toBe(true);
      }
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) expect(a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y).toBe(true);
      });
      const joined = new Set([set.parts[0]!.key]);
      for (let n = 0; n < set.parts.length; n++) {
        for (const w of set.wires) if (joined.has(w.from[0]) || joined.has(w.to[0])) for (const [key] of [w.from, w.to]) joined.add(key);
      }
      expect(joined.size).toBe(set.parts.length);
    });

    it('drops as ordinary parts in one edit that can be taken back', () => {
      const { after, ids } = dropped(PLAN12, id);
      expect(Object.keys(after.parts)).toHaveLength(set.parts.length);
      expect(Object.keys(after.wires)).toHaveLength(set.wires.length);
      for (const p of set.parts) {
        const part = after.parts[ids[p.key]!]!;
        expect(part).toMatchObject({ kind: p.kind, zone: 'z2', x: p.x + 40, y: p.y + 60, owner: partKind(p.kind).owner ?? 'build' });
      }
      for (const w of Object.values(after.wires)) expect(w.owner).toBe('build');
    });
  });

  it('moves a drop outside the zone to its edge', () => {
    const { edit, ids } = dropSet(PLAN12, 'fused-feed-30', 'z2', -35, -5);
    const after = proven(PLAN12, edit);
    expect(after.parts[ids.feed!]).toMatchObject({ x: 0, y: 0 });
  });

  it('takes its 24 V figures in a 24 V vehicle', () => {
    const relay = (plan: Plan) => {
      const { after, ids } = dropped(plan, 'hold-relay');
      return after.parts[ids.relay!]!.settings;
    };
    expect(relay(PLAN12)).toEqual({});
    expect(relay(PLAN24)).toMatchObject({ nominalV: 24 });
    const variant24 = partKind('delay-off-relay').variants?.find((v) => v.id === '24v-90s')?.settings;
    expect(relay(PLAN24)).toEqual(variant24);
  });

  it('puts the fuse within 0.15 m of the tap (common practice)', () => {
    for (const id of ['fused-feed-30', 'fused-feed-15']) {
      const lengthM = partSets.get(id)!.wires.find((w) => w.from[0] === 'feed')?.lengthM;
      expect(lengthM).toBeLessThanOrEqual(0.15);
    }
  });

  it('puts a fuse within 0.15 m of the plus side of a store (common practice), its source end towards it', () => {
    const wires = partSets.get('hold-up-store')!.wires.filter((w) => [...w.from, ...w.to].includes('+'));
    expect(wires).toHaveLength(1);
    expect([wires[0]!.from, wires[0]!.to]).toEqual([
      ['store', '+'],
      ['fuse', '1'],
    ]);
    expect(wires[0]!.lengthM).toBeLessThanOrEqual(0.15);
  });

  it('lets a press alone hold the latch longer than a computer takes to start, at its least', () => {
    // 25 s to 40 s to start (common practice); 60 s less 30 %, calculated.
    const latch = partSets.get('latch-with-button')!.parts.find((p) => p.kind === 'hold-latch')!;
    for (const systemV of [12, 24] as const) {
      const s = settingsOf(partKind('hold-latch'), setPartSettings(latch, systemV));
      expect(s.num('releaseS') * (1 - s.num('timeTol'))).toBeGreaterThan(40);
    }
    const variant24 = partKind('hold-latch').variants?.find((v) => v.id === '24v')?.settings;
    expect(latch.settings24).toEqual(variant24);
  });

  it('wires the key sensor’s reverse diode against the LED and its pull-up to the collector', () => {
    const wires = partSets.get('key-sensor')!.wires.map((w) => [w.from.join('.'), w.to.join('.')].sort().join(' '));
    expect(wires).toContain('opto.A reverse.K');
    expect(wires).toContain('opto.K reverse.A');
    expect(wires).toContain('opto.C pull.2');
    expect(wires).toContain('opto.A series.2');
  });

  it('lets the supply’s guard stand the negative spike behind its clamp: clamp plus charged bulk stays below its reverse rating', () => {
    // ISO 7637-2 pulse 1 against a bulk charged to 14.4 V (28.8 V): all that the clamp lets through adds up across the guard.
    for (const [systemV, chargedV] of [
      [12, 14.4],
      [24, 28.8],
    ] as const) {
      const part = (key: string) => setPartSettings(partSets.get('supply')!.parts.find((p) => p.key === key)!, systemV);
      expect(part('clamp').bidirectional).toBe(true);
      expect((part('clamp').clampV as number) + chargedV).toBeLessThan(part('guard').reverseV as number);
    }
  });
});
