import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { setFitted, setHead, setStage, setTicks } from '../../src/plan/edits.ts';
import { reached, STAGES } from '../../src/plan/stages.ts';
import { proven, smallPlan } from './laws.ts';

describe('the stage of the job', () => {
  it('is one field of the plan that a file carries and undo takes back', () => {
    const { plan } = smallPlan();
    const next = proven(plan, setStage(plan, 'wire'));
    expect(next.stage).toBe('wire');
    const read = readPlan(writePlan(next));
    expect(read.ok && read.plan.stage).toBe('wire');
    const odd = readPlan(writePlan(next).replace('"stage": "wire"', '"stage": "drive"'));
    expect(odd.ok).toBe(false);
  });

  it('has always come for what belongs to drawing, and for nothing later than itself', () => {
    for (const now of [undefined, ...STAGES]) expect(reached(now, undefined), now).toBe(true);
    expect(reached(undefined, 'buy')).toBe(false);
    expect(reached('buy', 'wire')).toBe(false);
    expect(reached('wire', 'wire')).toBe(true);
    expect(reached('keep', 'wire')).toBe(true);
  });
});

describe('ticks', () => {
  it('come, go, and leave no empty list behind', () => {
    const { plan } = smallPlan();
    const one = proven(plan, setTicks(plan, ['buy:a', 'test:b'], true));
    expect(one.ticks).toEqual({ 'buy:a': true, 'test:b': true });
    const less = proven(one, setTicks(one, ['buy:a'], false));
    expect(less.ticks).toEqual({ 'test:b': true });
    const none = proven(less, setTicks(less, ['test:b'], false));
    expect('ticks' in none).toBe(false);
    // Other changes of the head leave them as they are.
    expect(proven(one, setHead(one, { title: 'Other' })).ticks).toEqual(one.ticks);
  });

  it('replace an earlier word on the same thing', () => {
    const { plan } = smallPlan();
    const first = proven(plan, setTicks(plan, ['keep:file:1', 'keep:card'], true));
    expect(proven(first, setTicks(first, ['keep:file:2'], true, 'keep:file:')).ticks).toEqual({ 'keep:card': true, 'keep:file:2': true });
  });

  it('are carried by a file', () => {
    const { plan } = smallPlan();
    const ticked = proven(plan, setTicks(plan, ['buy:a'], true));
    const read = readPlan(writePlan(ticked));
    expect(read.ok && read.plan).toEqual(ticked);
  });
});

describe('fitted', () => {
  it('writes the automatic values of the moment into wire and part, and keeps them when taken back', () => {
    const { plan, ids } = smallPlan();
    const wire = plan.wires[ids.loadWire]!;
    const fuse = plan.parts[ids.fuse]!;
    const filled = {
      ...plan,
      wires: { ...plan.wires, [wire.id]: { ...wire, number: 4, areaMm2: 0.75, colour: 'RD' as const, lengthM: 2.8, insulationC: 105 } },
      parts: { ...plan.parts, [fuse.id]: { ...fuse, settings: { ...fuse.settings, ratingA: 7.5 } } },
    };
    const next = proven(plan, setFitted(plan, filled, { parts: [fuse.id], wires: [wire.id] }, true));
    expect(next.wires[wire.id]).toEqual({ ...filled.wires[wire.id], fitted: true });
    expect(next.parts[fuse.id]!.settings.ratingA).toBe(7.5);
    const back = proven(next, setFitted(next, next, { parts: [fuse.id], wires: [wire.id] }, false));
    expect(back.wires[wire.id]).toEqual(filled.wires[wire.id]);
    expect('fitted' in back.parts[fuse.id]!).toBe(false);
  });

  it('says what was ticked', () => {
    const { plan, ids } = smallPlan();
    expect(setFitted(plan, plan, { parts: [ids.fuse], wires: [] }, true).label).toBe('Tick as fitted: Main fuse');
    expect(setFitted(plan, plan, { parts: [ids.fuse, ids.resistor], wires: [ids.loadWire] }, true).label).toBe('Tick as fitted: 2 parts, 1 wire');
  });
});
