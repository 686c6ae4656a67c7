import { describe, expect, it } from 'vitest';
import { endText, roleOf, sensibleEnds, whyNot } from '../../src/canvas/sensibleEnds.ts';
import { addWire } from '../../src/plan/edits.ts';
import { done, planOf, smallBuild } from '../scene/plans.ts';

const named = (list: ReturnType<typeof sensibleEnds>) => list.map((e) => endText(e.part, e.terminal));

describe('sensible ends', () => {
  const { plan, ids } = planOf(
    [
      { key: 'battery', kind: 'battery', zone: 'z1', x: 40, y: 200, owner: 'vehicle' },
      { key: 'feed', kind: 'feed-30', zone: 'z2', x: 30, y: 60, owner: 'vehicle' },
      { key: 'other', kind: 'feed-15', zone: 'z2', x: 30, y: 160, owner: 'vehicle' },
      { key: 'fuse', kind: 'blade-fuse', zone: 'z2', x: 200, y: 70 },
      { key: 'ground', kind: 'chassis-ground', zone: 'z3', x: 100, y: 0 },
      { key: 'down', kind: 'step-down', zone: 'z3', x: 60, y: 60 },
      { key: 'pc', kind: 'computer', zone: 'z3', x: 300, y: 40 },
      { key: 'stick', kind: 'usb-device', zone: 'z3', x: 300, y: 500 },
    ],
    [],
  );
  const from = (part: string, terminal: string) => sensibleEnds(plan, { part: ids[part] ?? '', terminal });

  it('puts a fuse first behind a tap', () => {
    expect(named(from('feed', 'out'))[0]).toContain('fuse');
  });

  it('never joins two leads of the vehicle through the build', () => {
    const ends = from('feed', 'out');
    expect(ends.length).toBeGreaterThan(0);
    expect(ends.some((e) => e.part.owner === 'vehicle')).toBe(false);
  });

  it('takes ground to ground and never to a supply', () => {
    const ends = from('down', 'gnd');
    expect(ends[0]?.part.id).toBe(ids.ground);
    expect(ends.some((e) => e.terminal.role === 'supply' || e.terminal.role === 'rail5')).toBe(false);
  });

  it('takes the 5 V output to 5 V cells, never to the 12 V side', () => {
    const ends = from('down', 'out');
    expect(ends[0]?.part.id).toBe(ids.pc);
    expect(['2', '4']).toContain(ends[0]?.terminal.id);
    expect(ends.some((e) => e.part.id === ids.feed)).toBe(false);
  });

  it('takes a plug only to a socket of its kind', () => {
    const ends = from('stick', 'usb');
    expect(ends.length).toBeGreaterThan(0);
    for (const e of ends) expect(e.terminal.form).toBe('usb');
  });

  it('leaves out header cells that have their wire, and ends that are joined already', () => {
    const five = { part: ids.pc ?? '', terminal: '2' };
    const joined = done(plan, addWire(plan, { part: ids.down ?? '', terminal: 'out' }, five).edit);
    const ends = sensibleEnds(joined, { part: ids.down ?? '', terminal: 'out' });
    expect(ends.some((e) => e.end.part === five.part && e.end.terminal === '2')).toBe(false);
    expect(whyNot(joined, { part: ids.fuse ?? '', terminal: '2' }, five)).toMatch(/one wire/);
  });

  it('plugs one plug into a socket', () => {
    const stick = { part: ids.stick ?? '', terminal: 'usb' };
    const plugged = done(plan, addWire(plan, stick, { part: ids.pc ?? '', terminal: 'usb1' }).edit);
    expect(whyNot(plugged, stick, { part: ids.pc ?? '', terminal: 'usb2' })).toMatch(/plug/);
    // A stud takes several rings.
    const stud = { part: ids.ground ?? '', terminal: '31' };
    const one = done(plan, addWire(plan, { part: ids.down ?? '', terminal: 'gnd' }, stud).edit);
    expect(whyNot(one, { part: ids.down ?? '', terminal: '0v' }, stud)).toBeNull();
  });

  it('says why a wire may not be', () => {
    const a = { part: ids.fuse ?? '', terminal: '1' };
    expect(whyNot(plan, a, a)).toMatch(/two different ends/);
    expect(whyNot(plan, a, { part: 'gone', terminal: '1' })).toMatch(/not there/);
    expect(whyNot(plan, a, { part: ids.feed ?? '', terminal: 'out' })).toBeNull();
  });

  it('carries a role through a fuse to its other end', () => {
    const small = smallBuild();
    expect(roleOf(small.plan, { part: small.ids.fuse ?? '', terminal: '2' })).toBe('supply');
    expect(roleOf(plan, { part: ids.fuse ?? '', terminal: '2' })).toBe('any');
  });

  it('puts the nearer of two like ends first', () => {
    const two = planOf(
      [
        { key: 'down', kind: 'step-down', zone: 'z3', x: 60, y: 60 },
        { key: 'far', kind: 'chassis-ground', zone: 'z1', x: 60, y: 0 },
        { key: 'near', kind: 'chassis-ground', zone: 'z3', x: 60, y: 0 },
      ],
      [],
    );
    expect(sensibleEnds(two.plan, { part: two.ids.down ?? '', terminal: 'gnd' }).map((e) => e.part.id)).toEqual([two.ids.near, two.ids.far]);
  });
});
