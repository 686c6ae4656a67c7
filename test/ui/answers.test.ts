import { describe, expect, it } from 'vitest';
import { partKinds } from '../../src/parts/index.ts';
import { wireRoute } from '../../src/plan/lengths.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { HOTTEST, LEADS, NO_ANSWERS, planFrom, SMALL_BATTERY_AH } from '../../src/ui/answers.ts';

describe('five questions make a plan', () => {
  it('assumes the worst where nothing was answered', () => {
    const plan = planFrom(NO_ANSWERS);
    expect(plan.vehicle).toMatchObject({ systemV: 12, batteryAh: SMALL_BATTERY_AH, stopStart: true, dipLevel: 'II', centralClamping: 'unknown' });
    expect(Object.values(plan.zones).map((z) => z.kind)).toContain(HOTTEST);
  });

  it('takes what was answered', () => {
    const plan = planFrom({
      title: '  Bus 7 ',
      systemV: 24,
      batteryAh: 180,
      computerAt: 'under-seat',
      displayAt: 'desk',
      stopStart: 'no',
      throughStart: 'no',
      leads: ['30', '15'],
      without: ['camera'],
    });
    expect(plan.ticks).toEqual({ 'guide:without:camera': true });
    expect(plan.title).toBe('Bus 7');
    expect(plan.vehicle).toMatchObject({ systemV: 24, batteryAh: 180, stopStart: false, dipLevel: 'I' });
    expect(Object.values(plan.zones).map((z) => z.kind)).toEqual(['engine-bay', 'dash', 'under-seat', 'desk']);
    expect(Object.values(plan.parts).map((p) => p.kind)).toEqual(expect.arrayContaining(['battery', 'feed-30', 'feed-15', 'chassis-ground']));
  });

  it('puts two things in one kind of place into one zone', () => {
    const plan = planFrom({ ...NO_ANSWERS, computerAt: 'dash', displayAt: 'dash' });
    expect(Object.values(plan.zones).map((z) => z.kind)).toEqual(['engine-bay', 'dash']);
  });

  it('joins every zone, so that every wire has a length', () => {
    const plan = planFrom({ ...NO_ANSWERS, computerAt: 'roof', displayAt: 'load-bay', leads: LEADS.map((l) => l.line) });
    for (const wire of Object.values(plan.wires)) expect(wireRoute(plan, wire)?.lengthM).toBeGreaterThan(0);
    expect(Object.keys(plan.runs)).toHaveLength(Object.keys(plan.zones).length - 1);
  });

  it('leaves one ground for the build and no other; the constant lead runs straight', () => {
    const plan = planFrom({ ...NO_ANSWERS, computerAt: 'under-seat', displayAt: 'desk', leads: LEADS.map((l) => l.line) });
    const joined = new Set(Object.values(plan.wires).flatMap((w) => [w.from.part, w.to.part]));
    const grounds = Object.values(plan.parts).filter((p) => p.kind === 'chassis-ground');
    expect(grounds.filter((p) => !joined.has(p.id)).map((p) => p.name)).toEqual(['Dash ground']);
    const scene = buildScene(plan);
    const first = Object.values(plan.wires).find((w) => plan.parts[w.to.part]?.kind === 'feed-30');
    expect(scene.wires.get(first?.id ?? '')?.points).toHaveLength(4);
  });

  it('draws only kinds that exist, and the vehicle owns its own', () => {
    const plan = planFrom({ ...NO_ANSWERS, leads: LEADS.map((l) => l.line) });
    for (const part of Object.values(plan.parts)) {
      const kind = partKinds.get(part.kind);
      expect(kind, part.kind).toBeDefined();
      if (kind?.owner === 'vehicle') expect(part.owner).toBe('vehicle');
    }
  });
});
