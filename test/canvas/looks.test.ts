import { describe, expect, it } from 'vitest';
import type { Results } from '../../src/advise/types.ts';
import type { Analysis } from '../../src/analysis/types.ts';
import { EffectivePlan } from '../../src/canvas/effective.ts';
import { figureLabels } from '../../src/canvas/figureLabels.ts';
import { ampText, briefFigureText, figureText, voltText, wireFigures } from '../../src/canvas/figures.ts';
import { inkTable, luminance } from '../../src/canvas/inks.ts';
import { type Mark, markPrimitives, markShape, marksOf } from '../../src/canvas/marks.ts';
import { overlaps } from '../../src/drawing/box.ts';
import type { Finding } from '../../src/rules/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { boxOfPrimitive } from '../../src/scene/labels.ts';
import { tagSize } from '../../src/scene/tags.ts';
import { smallBuild } from '../scene/plans.ts';

describe('figures along wires', () => {
  it('have at most three significant figures and a fitting unit', () => {
    expect([1.1523, 0.0123, 0.000066, 12.345, -0.5, 0].map(ampText)).toEqual(['1.15 A', '12.3 mA', '66 µA', '12.3 A', '500 mA', '0 A']);
    expect([14.18, 0.0264, 0, 5].map(voltText)).toEqual(['14.2 V', '26.4 mV', '0 V', '5 V']);
    expect(ampText(0.9996)).toBe('1 A');
  });

  it('leave out what is not known, and what is not worth a label', () => {
    expect(figureText({ amp: 1.15, volt: 14.2 })).toBe('1.15 A · 14.2 V');
    expect(figureText({ amp: Number.NaN, volt: 14.2 })).toBe('14.2 V');
    expect(briefFigureText({ amp: 0, volt: 0.026 })).toBe('');
    expect(briefFigureText({ amp: 1.15, volt: 0.026 })).toBe('1.15 A');
  });

  it('come from the reading of the key position and band, and from no other', () => {
    const { plan, wires } = smallBuild();
    const index = { terminals: [`${plan.wires[wires[1] ?? '']?.from.part}.out`], wires: [wires[1] ?? ''], elements: [], devices: [] };
    const reading = (state: string, band: string, a: number, v: number, status = 'solved') => ({
      state,
      band,
      status,
      wireA: Float64Array.of(a),
      terminalV: Float64Array.of(v),
    });
    const analysis = {
      index,
      readings: [reading('OFF_ASLEEP', 'typical', 0.001, 12.6), reading('RUN_CHARGING', 'typical', 1.2, 14.2), reading('START', 'low', 0, 0, 'not computed')],
    } as unknown as Analysis;
    expect(wireFigures(plan, analysis, 'Running', 'typical').get(wires[1] ?? '')).toEqual({ amp: 1.2, volt: 14.2 });
    expect(wireFigures(plan, analysis, 'Parked', 'typical').get(wires[1] ?? '')).toEqual({ amp: 0.001, volt: 12.6 });
    expect(wireFigures(plan, analysis, 'Running', 'low').size).toBe(0);
    expect(wireFigures(plan, analysis, 'Start', 'low').size).toBe(0);
  });

  it('stand clear of parts, tags and each other', () => {
    const { plan } = smallBuild();
    const scene = buildScene(plan);
    const labels = figureLabels(scene, new Map([...scene.wires.keys()].map((id) => [id, { amp: 1.15, volt: 14.2 }])));
    expect(labels.length).toBeGreaterThan(2);
    const boxes = labels.map(
      (l) => l.plate ?? { x: l.text.x - (l.text.anchor === 'end' ? 60 : l.text.anchor === 'middle' ? 30 : 0), y: l.text.y - 9, w: 60, h: 11 },
    );
    boxes.forEach((b, i) => {
      for (const p of scene.parts.values()) expect(overlaps(p.box, b)).toBe(false);
      for (const w of scene.wires.values()) {
        const { w: tw, h } = tagSize(w.tag);
        if (w.tag !== '') expect(overlaps({ x: w.tagAt.x - tw / 2, y: w.tagAt.y - h / 2, w: tw, h }, b)).toBe(false);
      }
      for (const other of boxes.slice(i + 1)) expect(overlaps(other, b)).toBe(false);
    });
  });

  it('stand clear of the mark of a finding beside the number of their wire', () => {
    const { plan, wires } = smallBuild();
    const scene = buildScene(plan);
    const figures = new Map(wires.map((id) => [id, { amp: 1.15, volt: 14.2 }]));
    const all = wires.map((id) => ({ id, kind: 'wire', level: 'advice', count: 1 }) as const);
    const discs = markPrimitives(all, scene, new Set()).map(boxOfPrimitive);
    const covered = (marks: readonly Mark[]) => figureLabels(scene, figures, marks).filter((l) => discs.some((d) => overlaps(d, boxOfPrimitive(l.text))));
    expect(covered([]).length).toBeGreaterThan(0);
    expect(covered(all)).toEqual([]);
  });
});

describe('inks', () => {
  it('measure luminance as WCAG 2 does: white 1, black 0, mid grey #777777 0.184 (from memory)', () => {
    expect(luminance('#ffffff')).toBeCloseTo(1);
    expect(luminance('#000')).toBeCloseTo(0);
    expect(luminance('#777777')).toBeCloseTo(0.184, 3);
  });

  it('edge white on a pale ground and black on a dark one', () => {
    const on = (ground: string) => inkTable((p) => (p === '--zone-a' ? ground : '')).edged;
    expect(on('#f7f4ec').has('wire-WH')).toBe(true);
    expect(on('#f7f4ec').has('wire-BK')).toBe(false);
    expect(on('#1d2120').has('wire-BK')).toBe(true);
    expect(on('#1d2120').has('wire-WH')).toBe(false);
  });

  it('take theme colours from the page, insulation from the trade', () => {
    const inks = inkTable((p) => (p === '--accent' ? ' #0c6a6a ' : ''));
    expect(inks.of('accent')).toBe('#0c6a6a');
    expect(inks.of('wire-RD')).toMatch(/^#/);
    expect(inks.of('fuse-10')).toBe(inks.of('wire-RD'));
  });
});

describe('marks', () => {
  const finding = (kind: 'part' | 'wire' | 'plan', id: string, level: Finding['level']): Finding => ({
    rule: 'r',
    code: 'X',
    level,
    subject: { kind, id },
    related: [],
    what: '',
    todo: '',
    figures: [],
    state: null,
    band: null,
  });
  it('show the worst level once per part or wire, and how many', () => {
    expect(marksOf([finding('part', 'p1', 'advice'), finding('part', 'p1', 'hazard'), finding('wire', 'w1', 'fault'), finding('plan', '', 'fault')])).toEqual([
      { id: 'p1', kind: 'part', level: 'hazard', count: 2 },
      { id: 'w1', kind: 'wire', level: 'fault', count: 1 },
    ]);
  });
  it('differ in shape, not only in colour: eight corners, three, none', () => {
    const corners = (level: Finding['level']) => {
      const shape = markShape(level, 0, 0, 1)[0];
      return shape?.t === 'poly' ? shape.pts.length / 2 : 0;
    };
    expect(['hazard', 'fault', 'advice'].map((l) => corners(l as Finding['level']))).toEqual([8, 3, 0]);
  });
});

describe('the plan as drawn', () => {
  const { plan, ids, wires } = smallBuild();
  const filledWire = { ...(plan.wires[wires[6] ?? ''] as (typeof plan.wires)[string]), number: 6, colour: 'BU' as const, areaMm2: 0.22, lengthM: 3.2 };
  const filledFuse = { ...(plan.parts[ids.fuse ?? ''] as (typeof plan.parts)[string]), settings: { ratingA: 5 } };
  const results = {
    filled: { ...plan, wires: { ...plan.wires, [filledWire.id]: filledWire }, parts: { ...plan.parts, [filledFuse.id]: filledFuse } },
  } as Results;

  it('shows automatic values without making them typed', () => {
    const drawn = new EffectivePlan().of(plan, results);
    expect(drawn.wires[filledWire.id]).toMatchObject({ number: 6, colour: 'BU', areaMm2: 0.22 });
    expect(drawn.parts[filledFuse.id]?.settings).toEqual({ ratingA: 5 });
    expect(plan.wires[filledWire.id]?.number).toBeUndefined();
  });

  it('lets what is typed win over older results', () => {
    const typed = { ...plan, wires: { ...plan.wires, [filledWire.id]: { ...(plan.wires[filledWire.id] as typeof filledWire), colour: 'GN' as const } } };
    expect(new EffectivePlan().of(typed, results).wires[filledWire.id]).toMatchObject({ colour: 'GN', number: 6 });
  });

  it('keeps the objects of rows that come out alike', () => {
    const effective = new EffectivePlan();
    const first = effective.of(plan, results);
    const second = effective.of(plan, structuredClone(results));
    for (const id of Object.keys(plan.parts)) expect(second.parts[id]).toBe(first.parts[id]);
    for (const id of Object.keys(plan.wires)) expect(second.wires[id]).toBe(first.wires[id]);
  });
});
