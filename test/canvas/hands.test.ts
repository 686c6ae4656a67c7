import { describe, expect, it } from 'vitest';
import { findRows, rowsOf } from '../../src/canvas/findRows.ts';
import { commands, keyOf } from '../../src/canvas/hands/registry.ts';
import { matchTerminals } from '../../src/canvas/replace.ts';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKind } from '../../src/parts/index.ts';
import { smallPlan } from '../plan/laws.ts';

const ends = (kind: string) => partKind(kind).terminals(settingsOf(partKind(kind), {}));
const event = (key: string, more: Partial<KeyboardEvent> = {}) => ({ key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...more });

describe('the commands', () => {
  it('have ids and keys of their own', () => {
    const ids = commands.map((c) => c.id);
    expect(new Set(ids).size).toBe(ids.length);
    const keys = commands.flatMap((c) => c.keys ?? []).map((k) => k.toLowerCase());
    expect(new Set(keys).size).toBe(keys.length);
    expect(commands.length).toBeGreaterThan(20);
  });

  it('read keys the way they are written', () => {
    expect(keyOf(event('D', { ctrlKey: true, shiftKey: true }))).toBe('ctrl+shift+d');
    expect(keyOf(event('?', { shiftKey: true }))).toBe('?');
    expect(keyOf(event('F10', { shiftKey: true }))).toBe('shift+f10');
  });
});

describe('another kind in a part’s place', () => {
  it('takes wires by name, and leaves out what has no like end', () => {
    expect(matchTerminals(ends('blade-fuse'), ends('master-switch'))).toStrictEqual({ 1: '1', 2: '2' });
    const lost = matchTerminals(ends('step-down'), ends('resistor'));
    expect(lost).toStrictEqual({});
  });
});

describe('finding a part or wire', () => {
  const { plan, ids } = smallPlan();
  const [wire] = Object.keys(plan.wires) as [string];
  const rows = rowsOf(plan, new Map([[wire, 'W7']]));
  const numberOf = (id: string): string => rows.find((r) => r.key === id)!.number;

  it('lists parts and wires under the numbers of the sheet', () => {
    expect(numberOf(ids.fuse)).toMatch(/^F\d+$/);
    expect(numberOf(wire)).toBe('W7');
    expect(rows).toHaveLength(Object.keys(plan.parts).length + Object.keys(plan.wires).length);
  });

  it('a number typed whole comes first, every typed word must be there, and in vain is in vain', () => {
    expect(findRows(rows, ` ${numberOf(ids.fuse).toLowerCase()} `)[0]?.key).toBe(ids.fuse);
    expect(findRows(rows, 'w7')[0]?.key).toBe(wire);
    expect(findRows(rows, 'no such thing')).toEqual([]);
    expect(findRows(rows, '')).toBe(rows);
  });
});
