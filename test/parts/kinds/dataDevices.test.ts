import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import { behave, element, settings, wants } from '../situation.ts';

describe('serial device', () => {
  const kind = partKind('serial-device');

  // RS-232 rests between −3 V and −15 V, logic levels rest high (TIA-232 and JESD8C, from memory).
  it('holds its sending line at rest: high on logic levels, negative on RS-232, dead without supply', () => {
    const at = (levels: string, on: boolean) => element(behave(kind, { levels }, { on: () => on }), 'tx', 'source').volt;
    expect(at('3v3', true)).toBe(3.3);
    expect(at('5v', true)).toBe(5);
    expect(at('rs232', true)).toBeLessThan(-3);
    expect(at('3v3', false)).toBe(0);
  });

  it('wakes a little below its least supply', () => {
    const b = behave(kind, { minV: 3 });
    expect(wants(b, 'up', false, { '+': 3.3 })).toBe(true);
    expect(wants(b, 'up', false, { '+': 2.5 })).toBe(false);
  });

  it('asks for the rail that its limits allow', () => {
    const nominal = (maxV: number) => kind.facts(settings(kind, { maxV })).loads?.[0]?.nominalV;
    expect([3.6, 5.5, 30].map(nominal)).toEqual([3.3, 5, 12]);
  });
});

describe('sensor on a bus', () => {
  const kind = partKind('bus-device');

  it('has the lines of its bus, where the header carries them', () => {
    const lines = (bus: string) =>
      kind
        .terminals(settings(kind, { bus }))
        .filter((t) => t.role === 'signal')
        .map((t) => t.label);
    expect(lines('i2c')).toEqual(['SDA', 'SCL']);
    expect(lines('one-wire')).toEqual(['DQ']);
    expect(lines('spi')).toEqual(['MOSI', 'MISO', 'SCLK', 'CE']);
  });

  it('weighs next to nothing on its lines', () => {
    const b = behave(kind);
    expect(element(b, 'sda', 'resistor').ohm).toBeGreaterThan(1e6);
    expect(element(b, 'load', 'current').amp).toBe(0.005);
  });
});

describe('what devices bear, and in what box a computer sits', () => {
  it('a usual part for vehicles bears a parked cabin, 70 °C behind the dash', () => {
    for (const name of ['touch-display', 'camera', 'usb-device', 'computer']) {
      const s = settings(partKind(name));
      expect(s.num('bearsMaxC'), name).toBeGreaterThanOrEqual(70);
      expect(s.num('bearsMinC'), name).toBeLessThanOrEqual(-20);
    }
  });
});
