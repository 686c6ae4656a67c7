import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../../src/advise/index.ts';
import type { WorstMargin } from '../../../src/analysis/time/types.ts';
import { viewsOf } from '../../../src/analysis/views.ts';
import { readPlan } from '../../../src/codec/index.ts';
import type { Part, Plan, Wire } from '../../../src/plan/types.ts';
import { buildScene } from '../../../src/scene/buildScene.ts';
import { type Comparison, comparedDrawing, compareWirings, type Side } from '../../../src/sheet/compare/index.ts';

const read = readPlan(readFileSync('public/plans/mobile-library-van.plan.json', 'utf8'));
if (!read.ok) throw new Error('the demo cannot be read');
const demo = read.plan;
const kind = (k: string): Part => Object.values(demo.parts).find((p) => p.kind === k) as Part;
const margin = (part: string, spareS: number | null): WorstMargin => ({ part, spareS }) as WorstMargin;
const side = (letter: string, plan: Plan, margins: Side['margins'] = null): Side => ({ letter, results: computeResults(plan), margins });

/** The demo with its supply fuse at 15 A by hand, without its card reader, with a resistor hung on the fuse. */
const fuse = kind('blade-fuse');
const reader = Object.values(demo.parts).find((p) => (p.name ?? '').includes('Card reader')) as Part;
const extra: Part = { id: 'p1000000', kind: 'resistor', owner: 'build', zone: fuse.zone, x: 60, y: 300, turn: 0, settings: {} };
const lead: Wire = { id: 'w1000001', owner: 'build', from: { part: fuse.id, terminal: '2' }, to: { part: extra.id, terminal: '1' } };
const hung = Object.values(demo.wires).filter((w) => w.from.part === reader.id || w.to.part === reader.id);
const changed: Plan = {
  ...demo,
  parts: {
    ...Object.fromEntries(Object.entries(demo.parts).filter(([id]) => id !== reader.id)),
    [fuse.id]: { ...fuse, settings: { ...fuse.settings, ratingA: 15 } },
    [extra.id]: extra,
  },
  wires: { ...Object.fromEntries(Object.entries(demo.wires).filter(([id]) => !hung.some((w) => w.id === id))), [lead.id]: lead },
  nextSerial: 1_000_002,
};
const [a, b] = [side('A', demo), side('B', changed)];
const comparison = compareWirings(a, b);
const ids = (c: Comparison, table: 'parts' | 'wires', where: string) => c.differences.filter((d) => d.table === table && d.where === where).map((d) => d.id);
const figure = (c: Comparison, label: string) => c.figures.find((f) => f.label.startsWith(label));

describe('two wirings side by side', () => {
  it('finds nothing between a plan and its copy', () => {
    const same = compareWirings(a, side('B', { ...demo, id: 'copy', alternative: { of: demo.id, letter: 'B' } }));
    expect(same.differences).toEqual([]);
    expect(same.figures.filter((f) => f.differs)).toEqual([]);
    expect(same.goods.filter((g) => g.one !== g.other)).toEqual([]);
    expect([same.findings.one, same.findings.other]).toEqual([[], []]);
  });

  it('names what is only here, only there, and in both but not alike', () => {
    expect(ids(comparison, 'parts', 'one')).toEqual([reader.id]);
    expect(ids(comparison, 'parts', 'other')).toEqual([extra.id]);
    expect(ids(comparison, 'wires', 'one').sort()).toEqual(hung.map((w) => w.id).sort());
    expect(ids(comparison, 'wires', 'other')).toEqual([lead.id]);
    const rated = comparison.differences.find((d) => d.id === fuse.id);
    expect(rated?.how).toContainEqual({ label: 'Rating', before: `${a.results.filled.parts[fuse.id]?.settings.ratingA} A`, after: '15 A' });
    expect(rated?.name).toMatch(/^F\d+ /);
  });

  it('takes a part that was only moved, noted on or ticked for the same', () => {
    const moved: Plan = { ...demo, parts: { ...demo.parts, [fuse.id]: { ...fuse, x: fuse.x + 10, note: 'tight', fitted: true } } };
    expect(ids(compareWirings(a, side('B', moved)), 'parts', 'both')).toEqual([]);
  });

  it('buys what the parts lists say', () => {
    const goods = comparison.goods.filter((g) => g.one !== g.other);
    const fuses = goods.filter((g) => g.what.toLowerCase().includes('blade fuse'));
    expect(fuses.map((g) => g.other - g.one).sort()).toEqual([-1, 1]);
    expect(fuses.find((g) => g.other > g.one)?.what).toContain('15 A');
    const parts = (c: readonly (typeof goods)[number][], key: 'one' | 'other') => c.filter((g) => g.unit === 'pieces').reduce((n, g) => n + g[key], 0);
    const ours = (s: Side) => [...viewsOf(s.results.filled).values()].filter((v) => v.part.owner === 'build' && v.kind.owner !== 'vehicle').length;
    expect([parts(comparison.goods, 'one'), parts(comparison.goods, 'other')]).toEqual([ours(a), ours(b)]);
    expect(figure(comparison, 'Parts of the build')).toMatchObject({ one: String(ours(a)), other: String(ours(b)) });
  });

  it('tells parked draw, days and findings of each', () => {
    expect(figure(comparison, 'Found')).toMatchObject({ one: 'No hazard, no fault found', differs: true });
    expect(figure(comparison, 'Parked draw')?.one).toBe('100\u00a0µA');
    expect(figure(comparison, 'Parked battery')?.one).toBe('37\u00a0days');
    expect(comparison.findings.other.flatMap((f) => f.at).join()).toContain(b.results.filled.parts[fuse.id]?.name ?? 'Blade fuse');
    const levels = comparison.findings.other.map((f) => ['hazard', 'fault', 'advice'].indexOf(f.level));
    expect(levels).toEqual([...levels].sort());
    expect(levels[0]).toBe(0);
  });

  it('tells seconds to spare never better than they are, and waits for them', () => {
    const computer = kind('computer').id;
    const spare = (one: number | null, other: number | null) =>
      figure(compareWirings({ ...a, margins: [margin(computer, one)] }, { ...b, margins: [margin(computer, other)] }), 'Seconds');
    expect(figure(comparison, 'Seconds')).toMatchObject({ one: 'being worked out', other: 'being worked out' });
    const half = compareWirings({ ...a, margins: [margin(computer, 3)] }, b);
    expect(figure(half, 'Seconds')).toMatchObject({ other: 'being worked out', differs: false });
    expect(spare(50.19, -0.31)).toMatchObject({ one: '50.1\u00a0s', other: 'power goes 0.4\u00a0s too early', differs: true });
    expect(spare(null, 2)?.one).toMatch(/^none to tell/);
    const bare = compareWirings({ ...a, margins: [margin(computer, 3)] }, side('B', { ...changed, parts: { [extra.id]: extra }, wires: {} }));
    expect(figure(bare, 'Seconds')).toMatchObject({ one: '3.0\u00a0s', other: '–' });
  });
});

describe('the drawing of one of two', () => {
  const svg = (s: Side, which: 'one' | 'other', c = comparison) =>
    comparedDrawing(buildScene(s.results.filled), new Map([...viewsOf(s.results.filled)].map(([id, v]) => [id, v.item])), c.differences, which, 'Wiring');
  const count = (text: string, sign: string): number => text.split('\n').filter((line) => line.includes('font-size="15"') && line.includes(`>${sign}<`)).length;

  it('puts a sign at everything that differs, and at nothing else', () => {
    const n = (where: string) => comparison.differences.filter((d) => d.where === where).length;
    const [one, other] = [svg(a, 'one'), svg(b, 'other')];
    expect([count(one, '−'), count(one, '≠'), count(one, '+')]).toEqual([n('one'), n('both'), 0]);
    expect([count(other, '−'), count(other, '≠'), count(other, '+')]).toEqual([0, n('both'), n('other')]);
    expect(one).toContain('stroke-dasharray="6 4"');
  });

  it('draws a wire that is the same thin and grey, without its insulation colour', () => {
    const plain = svg(a, 'one', compareWirings(a, a));
    expect(plain).not.toMatch(/<polyline[^>]*stroke="#c/i);
    expect(count(plain, '≠')).toBe(0);
  });
});
