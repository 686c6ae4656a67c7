import { describe, expect, it } from 'vitest';
import { groundName, wireName } from '../../src/ledger/lookup.ts';
import { plan } from '../sheet/fixture.ts';

describe('what a wire is called', () => {
  it('is its number, and no id where it has none', () => {
    const wire = { id: 'w7', owner: 'build' as const, from: { part: 'p1', terminal: '1' }, to: { part: 'p2', terminal: '1' } };
    const wires = { w7: { ...wire, number: 3 }, w8: { ...wire, id: 'w8', owner: 'vehicle' as const } };
    expect(wireName({ ...plan, wires }, 'w7')).toBe('W3');
    expect(wireName({ ...plan, wires }, 'w8')).toBe('of the vehicle');
  });
});

describe('where the black probe goes', () => {
  it('is said in words: battery negative, its own, another part’s 0 V by kind or by the person’s name', () => {
    expect(groundName(plan, null)).toBe('battery negative');
    expect(groundName(plan, { part: 'p4', key: 'p4.0v' })).toBe('the step-down’s 0 V');
    expect(groundName(plan, { part: 'p4', key: 'p4.0v' }, 'p4')).toBe('its own 0 V');
    expect(groundName(plan, { part: 'p5', key: 'p5.6' }, 'p4')).toBe('0 V of =Desk computer');
    // A word of capitals keeps them.
    const usb = { ...plan, parts: { p9: { ...plan.parts.p4!, id: 'p9', kind: 'usb-device' } } };
    expect(groundName(usb, { part: 'p9', key: 'p9.usb~0' })).toBe('the USB device’s 0 V');
  });
});
