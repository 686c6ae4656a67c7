import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { pressedResults } from '../../src/advise/pressed.ts';
import { KEY_POSITIONS } from '../../src/analysis/types.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan } from '../bench/largePlan.ts';

const named = (plan: Plan, name: string): string => Object.values(plan.parts).find((p) => p.name === name)!.id;
const next = named(demoPlan, 'Button: next stop');
const released = computeResults(demoPlan).analysis;
const pressed = pressedResults(demoPlan, [next]);
const pin = (of: typeof released.pins, gpio: number) => of.find((p) => p.gpio === gpio)!;
const at = (key: string): number => KEY_POSITIONS.findIndex((k) => k.key === key);
const POWERED = ['Ignition', 'Start', 'Running', 'Held'].map(at);

describe('a button held down', () => {
  it('pulls its pin low through its series resistor, against the internal pull-up', () => {
    // Divider of 3.3 V by 1 kohm against 50 to 65 kohm: the pull-up of the board maker's data sheet.
    const least = (3.3 * 1000) / 66_000;
    const most = (3.3 * 1000) / 51_000;
    for (const k of POWERED) {
      expect(pin(released.pins, 5).level[k]).toBe('high');
      expect(pin(pressed.pins, 5).level[k]).toBe('low');
      expect(pin(pressed.pins, 5).volts[k]).toBeGreaterThan(0.98 * least);
      expect(pin(pressed.pins, 5).volts[k]).toBeLessThan(1.05 * most);
    }
  });

  it('leaves the other button’s pin alone', () => {
    for (const k of POWERED) {
      expect(pin(pressed.pins, 6).level[k]).toBe('high');
      expect(pin(pressed.pins, 6).volts[k]).toBeCloseTo(pin(released.pins, 6).volts[k]!, 3);
    }
  });

  it('has a reading for each key position and band, over the same terminals and devices', () => {
    expect(pressed.readings).toHaveLength(3 * KEY_POSITIONS.length);
    for (const r of pressed.readings) {
      const before = released.readings.find((b) => b.state === r.state && b.band === r.band)!;
      expect(r.status).toBe(before.status);
      expect(r.terminalV).toHaveLength(before.terminalV.length);
      // A button on a plain pin switches nothing.
      expect([...r.deviceOn]).toEqual([...before.deviceOn]);
    }
  });

  it('two at once pull both pins; none is the plan as it is', () => {
    const both = pressedResults(demoPlan, [next, named(demoPlan, 'Button: lamp')]);
    expect([5, 6].map((gpio) => pin(both.pins, gpio).level[at('Running')])).toEqual(['low', 'low']);
    const none = pressedResults(demoPlan, []);
    expect(none.pins.map((p) => p.level)).toEqual(released.pins.map((p) => p.level));
  });

  it('each pin names the part it is joined to', () => {
    expect(pin(released.pins, 5).joined).toBe(next);
  });
});
