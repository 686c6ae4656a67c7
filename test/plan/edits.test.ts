import { describe, expect, it } from 'vitest';
import { wiresOfPart, wiresOn } from '../../src/plan/connect.ts';
import * as edits from '../../src/plan/edits.ts';
import { proven, reasonFor, smallPlan } from './laws.ts';

describe('edits of parts', () => {
  it('adds a part on the grid with an id of its own', () => {
    const { plan } = smallPlan();
    const { edit, id } = edits.addPart(plan, { kind: 'splice', zone: 'z2', x: 14, y: -4 });
    const next = proven(plan, edit);
    expect(edit.intent).toBe('part.add');
    expect(edit.label).toBe('Add splice');
    expect(next.parts[id]).toStrictEqual({ id, kind: 'splice', owner: 'build', zone: 'z2', x: 10, y: 0, turn: 0, settings: {} });
    expect(next.nextSerial).toBe(plan.nextSerial + 1);
  });

  it('adds parts with their wires in one edit, also to parts that are there', () => {
    const { plan, ids } = smallPlan();
    const added = edits.addParts(plan, {
      parts: [
        { key: 'a', kind: 'resistor', zone: 'z2', x: 0, y: 0 },
        { key: 'b', kind: 'led', zone: 'z2', x: 60, y: 0 },
      ],
      wires: [
        { from: ['a', '2'], to: ['b', 'A'], extras: { lengthM: 0.1 } },
        { from: [ids.fuse, '2'], to: ['a', '1'] },
      ],
    });
    const next = proven(plan, added.edit);
    expect(next.wires[added.wires[0] as string]).toMatchObject({
      from: { part: added.ids.a, terminal: '2' },
      to: { part: added.ids.b, terminal: 'A' },
      lengthM: 0.1,
    });
    expect(wiresOn(next, ids.fuse, '2').map((w) => w.id)).toStrictEqual([ids.loadWire, added.wires[1]]);
  });

  it('moves parts together and keeps their arrangement at the edge', () => {
    const { plan, ids } = smallPlan();
    const next = proven(
      plan,
      edits.moveParts(plan, [
        { id: ids.fuse, x: -30, y: 12 },
        { id: ids.resistor, zone: 'z2', x: 50, y: 40 },
      ]),
    );
    expect(next.parts[ids.fuse]).toMatchObject({ x: 0, y: 10, zone: 'z2' });
    expect(next.parts[ids.resistor]).toMatchObject({ x: 80, y: 40, zone: 'z2' });
  });

  it('a move to where the part is changes nothing', () => {
    const { plan, ids } = smallPlan();
    expect(edits.movePart(plan, ids.fuse, { x: 22, y: 38 }).changes).toStrictEqual([]);
  });

  it('turns both ways round', () => {
    const { plan, ids } = smallPlan();
    expect(proven(plan, edits.turnParts(plan, [ids.fuse], -1)).parts[ids.fuse]?.turn).toBe(3);
    expect(proven(plan, edits.turnParts(plan, [ids.fuse], 6)).parts[ids.fuse]?.turn).toBe(2);
  });

  it('removes a part with the wires that end on it', () => {
    const { plan, ids } = smallPlan();
    const edit = edits.removeItems(plan, [ids.fuse]);
    const next = proven(plan, edit);
    expect(Object.keys(next.parts)).toStrictEqual([ids.battery, ids.resistor]);
    expect(next.wires).toStrictEqual({});
    expect(edit.label).toBe('Remove Main fuse');
    expect(wiresOfPart(next, ids.battery)).toStrictEqual([]);
  });

  it('removes a wire alone', () => {
    const { plan, ids } = smallPlan();
    const edit = edits.removeItems(plan, [], [ids.feedWire]);
    expect(edit.intent).toBe('wire.remove');
    expect(Object.keys(proven(plan, edit).wires)).toStrictEqual([ids.loadWire]);
  });

  it('types a setting and frees it again', () => {
    const { plan, ids } = smallPlan();
    const typed = proven(plan, edits.setSettings(plan, ids.fuse, { ratingA: 7.5, voltClass: '58' }));
    expect(typed.parts[ids.fuse]?.settings).toStrictEqual({ ratingA: 7.5, voltClass: '58' });
    const freed = proven(typed, edits.setSetting(typed, ids.fuse, 'ratingA', undefined));
    expect(freed.parts[ids.fuse]?.settings).toStrictEqual({ voltClass: '58' });
  });

  it('renames, and an empty name goes back to the kind', () => {
    const { plan, ids } = smallPlan();
    const named = proven(plan, edits.renamePart(plan, ids.resistor, '  Sense '));
    expect(named.parts[ids.resistor]?.name).toBe('Sense');
    const bare = proven(named, edits.renamePart(named, ids.resistor, ' '));
    expect(bare.parts[ids.resistor]).toStrictEqual(plan.parts[ids.resistor]);
  });
});

describe('edits of wires', () => {
  it('sets and frees what a wire carries', () => {
    const { plan, ids } = smallPlan();
    const next = proven(plan, edits.setWire(plan, ids.feedWire, { areaMm2: undefined, stripe: 'BK' }));
    expect(next.wires[ids.feedWire]).toStrictEqual({
      id: ids.feedWire,
      owner: 'build',
      from: { part: ids.battery, terminal: '+' },
      to: { part: ids.fuse, terminal: '1' },
      colour: 'RD',
      stripe: 'BK',
      lengthM: 2,
    });
  });

  it('cuts a part in and divides the typed length', () => {
    const { plan, ids } = smallPlan();
    const cut = edits.splitWire(plan, ids.feedWire, { kind: 'master-switch', zone: 'z1', x: 100, y: 40 }, '1', '2', 0.3);
    const next = proven(plan, cut.edit);
    expect(next.wires[ids.feedWire]).toBeUndefined();
    expect(next.wires[cut.wires[0]]).toMatchObject({
      from: { part: ids.battery, terminal: '+' },
      to: { part: cut.id, terminal: '1' },
      lengthM: 0.3,
      areaMm2: 1.5,
      colour: 'RD',
    });
    expect(next.wires[cut.wires[1]]).toMatchObject({
      from: { part: cut.id, terminal: '2' },
      to: { part: ids.fuse, terminal: '1' },
      lengthM: 1.7,
      areaMm2: 1.5,
      colour: 'RD',
    });
  });

  it('halves a typed length when the place of the cut is not said, and keeps an automatic one automatic', () => {
    const { plan, ids } = smallPlan();
    const typed = edits.splitWire(plan, ids.feedWire, { kind: 'splice', zone: 'z1', x: 0, y: 0 }, 's', 's');
    expect(proven(plan, typed.edit).wires[typed.wires[1]]?.lengthM).toBe(1);
    const free = edits.splitWire(plan, ids.loadWire, { kind: 'splice', zone: 'z2', x: 0, y: 0 }, 's', 's');
    const next = proven(plan, free.edit);
    expect(free.wires.map((id) => next.wires[id]?.lengthM)).toStrictEqual([undefined, undefined]);
  });

  it('leaves enough to crimp when cut at the very end', () => {
    const { plan, ids } = smallPlan();
    const cut = edits.splitWire(plan, ids.feedWire, { kind: 'splice', zone: 'z1', x: 0, y: 0 }, 's', 's', 5);
    const next = proven(plan, cut.edit);
    expect(cut.wires.map((id) => next.wires[id]?.lengthM)).toStrictEqual([1.95, 0.05]);
  });

  it('gives the number to one piece only', () => {
    const { plan, ids } = smallPlan();
    const numbered = proven(plan, edits.setWire(plan, ids.feedWire, { number: 7 }));
    const cut = edits.splitWire(numbered, ids.feedWire, { kind: 'splice', zone: 'z1', x: 0, y: 0 }, 's', 's');
    const next = proven(numbered, cut.edit);
    expect(cut.wires.map((id) => next.wires[id]?.number)).toStrictEqual([7, undefined]);
  });

  it('splices a wire end onto a wire', () => {
    const { plan, ids } = smallPlan();
    const made = edits.spliceWire(plan, ids.loadWire, { part: ids.battery, terminal: '-' }, { zone: 'z2', x: 100, y: 40 });
    const next = proven(plan, made.edit);
    expect(wiresOn(next, made.id, 's').map((w) => w.id)).toStrictEqual([...made.wires, made.third]);
  });
});

describe('edits of zones, runs and the head', () => {
  it('adds a zone between others and moves it', () => {
    const { plan } = smallPlan();
    const { edit, id } = edits.addZone(plan, { name: 'Roof', kind: 'roof' }, 1);
    const next = proven(plan, edit);
    expect(edits.zoneOrder(next)).toStrictEqual(['z1', id, 'z2', 'z3', 'z4']);
    expect(edits.zoneOrder(proven(next, edits.moveZone(next, id, 4)))).toStrictEqual(['z1', 'z2', 'z3', 'z4', id]);
  });

  it('removes an empty zone with its runs, and refuses while parts lie in it', () => {
    const { plan } = smallPlan();
    const next = proven(plan, edits.removeZone(plan, 'z4'));
    expect(Object.keys(next.zones)).toStrictEqual(['z1', 'z2', 'z3']);
    expect(Object.keys(next.runs)).toStrictEqual(['r5', 'r6']);
    expect(reasonFor(plan, edits.removeZone(plan, 'z2'))).toBe('Main fuse still lies in that zone: move it first');
  });

  it('takes bends away that lie in a zone which is removed, or through which their wire leads no longer', () => {
    const { plan, ids } = smallPlan();
    // The wire leads from z1 to z2; z4 is none of its zones.
    const bends = ['z1', 'z2', 'z4'].map((zone, i) => ({ x: 10 * i, y: 100, zone }));
    const bent = proven(plan, edits.setWire(plan, ids.feedWire, { bends }));
    expect(proven(bent, edits.removeZone(bent, 'z4')).wires[ids.feedWire]?.bends).toStrictEqual(bends.slice(0, 2));
    expect(proven(bent, edits.moveZone(bent, 'z1', 3)).wires[ids.feedWire]?.bends).toStrictEqual(bends);
    const between = proven(bent, edits.moveZone(bent, 'z4', 1));
    expect(proven(between, edits.moveZone(between, 'z4', 2)).wires[ids.feedWire]?.bends).toStrictEqual(bends.slice(0, 2));
    const only = proven(between, edits.setWire(between, ids.feedWire, { bends: bends.slice(2) }));
    expect(proven(only, edits.moveZone(only, 'z4', 0)).wires[ids.feedWire]).not.toHaveProperty('bends');
    expect(reasonFor(plan, edits.setWire(plan, ids.feedWire, { bends: [{ x: 1, y: 1, zone: 'z9' }] }))).toContain('a bend');
  });

  it('sets a run in either direction and makes one where there is none', () => {
    const { plan } = smallPlan();
    const longer = proven(plan, edits.setRun(plan, 'z2', 'z1', 1.9).edit);
    expect(longer.runs.r5?.lengthM).toBe(1.9);
    const made = edits.setRun(plan, 'z1', 'z4', 5);
    expect(proven(plan, made.edit).runs[made.id]).toStrictEqual({ id: made.id, a: 'z1', b: 'z4', lengthM: 5 });
    expect(reasonFor(plan, edits.setRun(plan, 'z1', 'z4', 0).edit)).toContain('above 0 m');
    expect(proven(plan, edits.removeRun(plan, 'r5')).runs.r5).toBeUndefined();
  });

  it('changes zone, title, vehicle, limits and what is set aside', () => {
    let { plan } = smallPlan();
    plan = proven(plan, edits.setZone(plan, 'z1', { maxC: 120 }));
    plan = proven(plan, edits.setHead(plan, { title: 'Van', note: 'n' }));
    plan = proven(plan, edits.setVehicle(plan, { systemV: 24, batteryAh: 170 }));
    plan = proven(plan, edits.setThreshold(plan, 'dropShare', 0.02));
    plan = proven(plan, edits.setAside(plan, 'loose:p9', 'spare'));
    expect(plan).toMatchObject({
      title: 'Van',
      note: 'n',
      vehicle: { systemV: 24, batteryAh: 170 },
      thresholds: { dropShare: 0.02 },
      setAside: { 'loose:p9': 'spare' },
    });
    expect(plan.zones.z1?.maxC).toBe(120);
    const back = proven(plan, edits.setAside(plan, 'loose:p9', undefined));
    expect(back.setAside).toStrictEqual({});
  });
});
