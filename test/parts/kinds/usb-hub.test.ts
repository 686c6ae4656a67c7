import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import { ohms, solveBench, source } from '../bench.ts';
import { behave, settings } from '../situation.ts';

const kind = partKind('usb-hub');
const POWERED = ['up', '5v', '0v', 'd1', 'd2'];

/** The hub with its 0 V on battery negative, 5 V at `fed`, and a device of 0.5 A (10 ohm) on port 1. */
function fedAt(fed: string, values: Record<string, string | boolean | number>, zero: string) {
  const { elements } = behave(kind, values, { wired: (t) => POWERED.includes(t) });
  return solveBench([...elements, source('feed', fed, '0', 5), ohms('zero', zero, '0', 1e-4), ohms('device', 'd1', 'd1~0', 10)]);
}

describe('USB hub', () => {
  it('with its own 5 V feeds its ports from that, and its host plug gives and takes nothing', () => {
    const b = fedAt('5v', { backfeed: 'no' }, '0v');
    // 0.1 ohm of port switch: 0.05 V of 5 V at 0.5 A.
    expect(b.volts('d1')).toBeCloseTo(4.95, 1);
    expect(Math.abs(b.amps('feed'))).toBeCloseTo(0.5 + 0.06, 1);
    expect(Math.abs(b.amps('back'))).toBeLessThan(1e-3);
  });

  // USB 2.0, 7.2.1: no device gives current to its host port. A hub that does is what the question is about.
  it('lets its 5 V out of its host plug unless somebody has looked', () => {
    const atPlug = (backfeed: string) => {
      const { elements } = behave(kind, { backfeed }, { wired: (t) => POWERED.includes(t) });
      const b = solveBench([...elements, source('feed', '5v', '0', 5), ohms('zero', '0v', '0', 1e-4), ohms('board', 'up', 'up~0', 100)]);
      return b.volts('up');
    };
    expect(atPlug('yes')).toBeCloseTo(5, 1);
    expect(atPlug('unknown')).toBeCloseTo(5, 1);
    expect(atPlug('no')).toBeLessThan(0.1);
  });

  it('without one lives on its host plug with everything behind it', () => {
    const b = fedAt('up', { ownSupply: false }, 'up~0');
    expect(b.volts('d1')).toBeCloseTo(4.95, 1);
    expect(Math.abs(b.amps('feed'))).toBeCloseTo(0.5 + 0.06, 1);
    expect(kind.terminals(settings(kind, { ownSupply: false })).map((t) => t.id)).toEqual(['up', 'd1', 'd2', 'd3', 'd4']);
  });

  it('its own current counts where it is fed', () => {
    const load = (ownSupply: boolean) => kind.facts(settings(kind, { ownSupply })).loads?.[0];
    expect(load(true)).toMatchObject({ plus: '5v', minus: '0v', peakA: 0.1 });
    expect(load(false)).toMatchObject({ plus: 'up', minus: 'up~0', peakA: 0.1 });
  });
});
