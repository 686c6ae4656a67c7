import { describe, expect, it } from 'vitest';
import { addPart, addWire, removeRun, setRun, setWire } from '../../src/plan/edits.ts';
import { shortestWay, wireRoute } from '../../src/plan/lengths.ts';
import type { Plan, Wire } from '../../src/plan/types.ts';
import { proven, smallPlan } from './laws.ts';

const wire = (plan: Plan, id: string): Wire => plan.wires[id] as Wire;

// Expected lengths worked by hand from the agreed rule: sum of runs plus 0.3 m in each end zone.
describe('wire lengths', () => {
  it('one run plus both ends', () => {
    const { plan, ids } = smallPlan();
    expect(wireRoute(plan, wire(plan, ids.loadWire))).toStrictEqual({ lengthM: 2.8, zones: ['z2', 'z3'], typed: false });
  });

  it('several runs, by way of the zones between', () => {
    const { plan, ids } = smallPlan();
    const made = addWire(plan, { part: ids.battery, terminal: '-' }, { part: ids.resistor, terminal: '2' });
    const next = proven(plan, made.edit);
    expect(wireRoute(next, wire(next, made.id))).toStrictEqual({ lengthM: 4.2, zones: ['z1', 'z2', 'z3'], typed: false });
  });

  it('takes the shortest way when there are two', () => {
    const { plan } = smallPlan();
    expect(shortestWay(plan, 'z4', 'z1')).toStrictEqual({ lengthM: 6, zones: ['z4', 'z3', 'z2', 'z1'] });
    const direct = proven(plan, setRun(plan, 'z1', 'z4', 5.5).edit);
    expect(shortestWay(direct, 'z4', 'z1')).toStrictEqual({ lengthM: 5.5, zones: ['z4', 'z1'] });
    const roundabout = proven(plan, setRun(plan, 'z1', 'z4', 6.5).edit);
    expect(shortestWay(roundabout, 'z4', 'z1')?.lengthM).toBe(6);
  });

  it('0.3 m in all inside one zone', () => {
    const { plan, ids } = smallPlan();
    const second = addPart(plan, { kind: 'resistor', zone: 'z2', x: 100, y: 0 });
    const withPart = proven(plan, second.edit);
    const made = addWire(withPart, { part: ids.fuse, terminal: '2' }, { part: second.id, terminal: '1' });
    const next = proven(withPart, made.edit);
    expect(wireRoute(next, wire(next, made.id))).toStrictEqual({ lengthM: 0.3, zones: ['z2'], typed: false });
  });

  it('a typed length wins and is marked', () => {
    const { plan, ids } = smallPlan();
    expect(wireRoute(plan, wire(plan, ids.feedWire))).toStrictEqual({ lengthM: 2, zones: ['z1', 'z2'], typed: true });
  });

  it('is unknown when no run joins the zones, unless typed', () => {
    const { plan, ids } = smallPlan();
    const cut = proven(plan, removeRun(plan, 'r6'));
    expect(wireRoute(cut, wire(cut, ids.loadWire))).toBeNull();
    const typed = proven(cut, setWire(cut, ids.loadWire, { lengthM: 4 }));
    expect(wireRoute(typed, wire(typed, ids.loadWire))).toStrictEqual({ lengthM: 4, zones: ['z2', 'z3'], typed: true });
  });
});
