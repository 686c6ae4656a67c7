import { describe, expect, it } from 'vitest';
import { copyItems, pasteClip } from '../../src/plan/copy.ts';
import { setPart, setWire, setZone } from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import { proven, smallPlan } from './laws.ts';

describe('copy and paste', () => {
  it('copies the wires inside and leaves those that lead away', () => {
    const { plan, ids } = smallPlan();
    const clip = copyItems(plan, [ids.battery, ids.fuse]);
    expect(clip.wires.map((w) => w.id)).toStrictEqual([ids.feedWire]);
    expect(copyItems(plan, ['p99']).parts).toStrictEqual([]);
  });

  it('pastes shifted parts with ids of their own', () => {
    const { plan, ids } = smallPlan();
    const pasted = pasteClip(plan, copyItems(plan, [ids.battery, ids.fuse]), 40, 20);
    const next = proven(plan, pasted.edit);
    const fuse = pasted.ids[1] as string;
    expect(pasted.edit.label).toBe('Paste 2 parts');
    expect(next.parts[fuse]).toStrictEqual({ ...plan.parts[ids.fuse], id: fuse, x: 60, y: 60 });
    expect(next.wires[pasted.wires[0] as string]).toMatchObject({ from: { part: pasted.ids[0] }, to: { part: fuse }, areaMm2: 1.5, lengthM: 2 });
  });

  it('does not copy numbers, nor that a thing is fitted', () => {
    let { plan } = smallPlan();
    const { ids } = smallPlan();
    plan = proven(plan, setWire(plan, ids.feedWire, { number: 3, fitted: true }));
    plan = proven(plan, setPart(plan, ids.fuse, { fitted: true }));
    const pasted = pasteClip(plan, copyItems(plan, [ids.battery, ids.fuse]), 0, 0);
    const next = proven(plan, pasted.edit);
    expect(next.parts[pasted.ids[1] as string]?.fitted).toBeUndefined();
    expect(next.wires[pasted.wires[0] as string]).not.toHaveProperty('number');
    expect(next.wires[pasted.wires[0] as string]).not.toHaveProperty('fitted');
  });

  it('goes through text into another plan and finds the zone of the same name', () => {
    const { plan, ids } = smallPlan();
    const clip = JSON.parse(JSON.stringify(copyItems(plan, [ids.fuse]))) as ReturnType<typeof copyItems>;
    let other = emptyPlan('Other', {}, 'other');
    other = proven(other, setZone(other, 'z2', { name: 'Glove box' }));
    other = proven(other, setZone(other, 'z3', { name: 'Behind the radio' }));
    const pasted = pasteClip(other, clip, 0, 0);
    expect(proven(other, pasted.edit).parts[pasted.ids[0] as string]?.zone).toBe('z3');
  });
});
