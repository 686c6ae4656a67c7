import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/types.ts';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKind, partKinds } from '../../src/parts/index.ts';
import { type Behaviour, PAIRED_FORMS, type PartKind, type Setting, type Settings } from '../../src/parts/types.ts';
import type { Band, Value, Values } from '../../src/plan/types.ts';
import { EXTRA_STATES, STATES } from '../../src/trade/supply.ts';
import { situation } from './situation.ts';

const BANDS: readonly Band[] = ['low', 'typical', 'high'];
const KINDS = [...partKinds.values()].map((k) => [k.kind, k] as const);

/** Default settings, every variant, and every other option of every choice and flag, one at a time. */
function cases(kind: PartKind): readonly (readonly [string, Settings])[] {
  const list: [string, Values][] = [['as it comes', {}]];
  for (const v of kind.variants ?? []) list.push([v.id, v.settings]);
  for (const s of kind.settings) {
    if (s.rare && kind.settings.length > 40) continue;
    if (s.type === 'choice') for (const o of s.options) list.push([`${s.key} ${o.value}`, { [s.key]: o.value }]);
    if (s.type === 'flag') list.push([`${s.key} ${!s.default}`, { [s.key]: !s.default }]);
  }
  return list.map(([name, values]) => [name, settingsOf(kind, values)] as const);
}

/** Names a part may use for nodes. */
function nodesOf(kind: PartKind, s: Settings): { terminals: Set<string>; all: (n: string) => boolean } {
  const terminals = new Set<string>();
  for (const t of kind.terminals(s)) {
    terminals.add(t.id);
    if (PAIRED_FORMS.has(t.form)) terminals.add(`${t.id}~0`);
  }
  const posts = new Set(['@battery', '@0', '@chassis']);
  return { terminals, all: (n) => terminals.has(n) || posts.has(n) || n.startsWith('~') };
}

function ends(e: Element): string[] {
  if (e.kind === 'opto') return [e.a, e.k, e.c, e.e];
  if (e.kind === 'stepdown' || e.kind === 'linear') return [e.in, e.gnd, e.out];
  return [e.a, e.b];
}

const shape = (b: Behaviour): string =>
  [...b.elements.map((e) => `${e.kind} ${e.id} ${ends(e).join('-')}`), ...(b.devices ?? []).map((d) => `device ${d.id}`)].join('\n');

/** Every combination of device states up to three devices; above that all off, all on, and each alone. */
function combinations(ids: readonly string[]): (readonly string[])[] {
  if (ids.length <= 3) return Array.from({ length: 2 ** ids.length }, (_, bits) => ids.filter((_id, i) => (bits >> i) & 1));
  return [[], ids, ...ids.map((id) => [id])];
}

function outOfLimits(setting: Setting, value: Value | undefined): boolean {
  if (typeof value !== typeof setting.default) return true;
  if (setting.type === 'number') return (value as number) < setting.min || (value as number) > setting.max;
  return setting.type === 'choice' && !setting.options.some((o) => o.value === value);
}

describe('every part kind', () => {
  it('is found by its name, and an unknown name is refused', () => {
    expect(KINDS.length).toBeGreaterThan(20);
    for (const [name, kind] of KINDS) expect(partKind(name)).toBe(kind);
    expect(() => partKind('no-such-part')).toThrow('no-such-part');
  });

  describe.each(KINDS)('%s', (_name, kind) => {
    it('says what it is in words for a beginner', () => {
      expect(kind.about).toMatch(/^[A-Z“].{20,}\.$/);
      expect(kind.title).not.toBe('');
      expect(kind.letter).toMatch(/^[A-Z]{1,2}$/);
      expect(`${kind.about} ${kind.title}`).not.toMatch(/\bsafe\b/i);
      for (const s of kind.settings) expect(`${s.label} ${s.help ?? ''}`, s.key).not.toMatch(/\bsafe\b/i);
    });

    it('gives every setting a label, limits and the basis of its default', () => {
      for (const s of kind.settings) {
        expect(s.label, s.key).not.toBe('');
        expect(s.basis.length, s.key).toBeGreaterThan(5);
        expect(outOfLimits(s, s.default), s.key).toBe(false);
        if (s.type === 'number') {
          expect(s.min, s.key).toBeLessThan(s.max);
          for (const stocked of s.stocked ?? []) expect(outOfLimits(s, stocked), `${s.key} ${stocked}`).toBe(false);
        }
      }
    });

    it('offers variants of known settings within their limits, the first being the default', () => {
      const byKey = new Map(kind.settings.map((s) => [s.key, s]));
      const ids = (kind.variants ?? []).map((v) => v.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const variant of kind.variants ?? []) {
        for (const [key, value] of Object.entries(variant.settings)) {
          const setting = byKey.get(key);
          expect(setting, `${variant.id}: ${key}`).toBeDefined();
          expect(outOfLimits(setting!, value), `${variant.id}: ${key} = ${value}`).toBe(false);
        }
      }
    });

    it.each(cases(kind))('draws itself with every terminal on a raster of ten, on its own edge (%s)', (_case, s) => {
      const terminals = kind.terminals(s);
      const drawing = kind.symbol(s, terminals);
      expect(new Set(terminals.map((t) => t.id)).size).toBe(terminals.length);
      expect(Object.keys(drawing.pads).sort()).toEqual(terminals.map((t) => t.id).sort());
      const places = new Set<string>();
      for (const t of terminals) {
        const pad = drawing.pads[t.id]!;
        expect(pad.x % 10, t.id).toBe(0);
        expect(pad.y % 10, t.id).toBe(0);
        places.add(`${pad.x},${pad.y}`);
        if (t.form !== 'splice') expect(pad.side, t.id).toBe(t.side);
      }
      expect(places.size).toBe(terminals.length);
      expect(drawing.w % 10).toBe(0);
      expect(drawing.h % 10).toBe(0);
      expect(drawing.primitives.length).toBeGreaterThan(0);
    });

    it.each(cases(kind))('names only its own terminals in links, sources, loads and meter points (%s)', (_case, s) => {
      const { terminals, all } = nodesOf(kind, s);
      const facts = kind.facts(s);
      for (const l of facts.links ?? []) for (const n of [l.a, l.b]) expect(all(n), `link ${n}`).toBe(true);
      for (const x of facts.sources ?? []) {
        expect(terminals.has(x.terminal), x.terminal).toBe(true);
        expect(all(x.returns), x.returns).toBe(true);
        expect(x.minOhm).toBeLessThanOrEqual(x.maxOhm);
        expect(x.nominalV).toBeGreaterThan(0);
      }
      for (const x of facts.loads ?? []) {
        for (const n of [x.plus, x.minus]) expect(terminals.has(n), `load ${n}`).toBe(true);
        expect(x.heatA).toBeLessThanOrEqual(x.peakA);
        if (x.minV !== null && x.maxV !== null) expect(x.minV).toBeLessThan(x.maxV);
      }
      for (const x of facts.polar ?? []) for (const n of [x.plus, x.minus]) expect(terminals.has(n), `polar ${n}`).toBe(true);
      if (facts.tap) expect(terminals.has(facts.tap.terminal)).toBe(true);
      for (const m of kind.meterPoints?.(s) ?? []) for (const n of [m.plus, m.minus]) expect(all(n), `meter ${n}`).toBe(true);
      expect(kind.spec(s)).not.toMatch(/undefined|NaN|null|\bsafe\b/);
      expect(kind.spec(s).length).toBeGreaterThan(4);
      expect(kind.subtitle?.(s) ?? '').not.toMatch(/undefined|NaN|null/);
    });

    it.each(cases(kind))('keeps its elements, nodes and devices whatever the state (%s)', (_case, s) => {
      const { all } = nodesOf(kind, s);
      for (const wired of [true, false]) {
        let first: string | null = null;
        const ids = (kind.behave(s, situation({ wired: () => wired })).devices ?? []).map((d) => d.id);
        for (const state of [...STATES, ...EXTRA_STATES]) {
          for (const band of BANDS) {
            for (const on of combinations(ids)) {
              const load = band === 'low' ? 'heavy' : band === 'high' ? 'light' : 'typical';
              const ambientC = band === 'low' ? 85 : band === 'high' ? -40 : 20;
              const b = kind.behave(s, situation({ state, band, ambientC, load, wired: () => wired, pressed: band === 'high', on: (d) => on.includes(d) }));
              const now = shape(b);
              if (first === null) {
                first = now;
                expect(new Set(b.elements.map((e) => e.id)).size).toBe(b.elements.length);
                for (const e of b.elements) for (const n of ends(e)) expect(all(n), `${e.id}: ${n}`).toBe(true);
              } else if (now !== first) expect(now, `${state} ${band} ${on}`).toBe(first);
              for (const e of b.elements) checkNumbers(e);
            }
          }
        }
      }
    });
  });
});

/** Every figure is a number, resistances are never below 0.1 mohm, and only a resistor may be open. */
function checkNumbers(e: Element): void {
  for (const [key, value] of Object.entries(e)) {
    if (typeof value !== 'number') continue;
    const open = value === Number.POSITIVE_INFINITY && (key === 'ohm' || key === 'leakOhm');
    if (Number.isNaN(value) || (!Number.isFinite(value) && !open)) throw new Error(`${e.id}.${key} = ${value}`);
  }
  if (e.kind === 'resistor' && e.ohm < 1e-4) throw new Error(`${e.id} below 0.1 mohm: ${e.ohm}`);
  for (const t of Object.values(e.tol ?? {})) {
    if (typeof t === 'number' ? !(t >= 0 && t < 1) : !(t[0] >= 0 && t[0] <= 1 && t[1] >= 1)) throw new Error(`${e.id} tolerance ${t}`);
  }
}
