import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import type { Values } from '../../../src/plan/types.ts';
import { ohms, solveBench, source } from '../bench.ts';
import { behave, element, settings } from '../situation.ts';

const amp = (kind: string, typed: Values, load: 'heavy' | 'typical' | 'light'): number =>
  element(behave(partKind(kind), typed, { load }), 'load', 'current').amp;

describe('USB cable', () => {
  const cable = partKind('usb-cable');
  /** Device of so many amps at the far end of a cable on a 4.75 V port: volts that it sees. */
  const arrives = (typed: Values, deviceA: number): number => {
    const b = solveBench([
      source('port', 'host', 'host~0', 4.75, 1e-4),
      ohms('ref', 'host~0', '0', 0.001),
      { kind: 'current', id: 'device', a: 'device', b: 'device~0', amp: deviceA, minV: 3 },
      ...behave(cable, typed, { ambientC: 20 }).elements,
    ]);
    return b.volts('device') - b.volts('device~0');
  };

  it('loses what the gauge says: 28, 24 and 20 gauge are 213, 84 and 33 mohm a metre (from memory of the gauge table)', () => {
    const perM = (areaMm2: number): number =>
      element(behave(cable, { areaMm2, lengthM: 2 }), 'vbus', 'resistor').ohm - element(behave(cable, { areaMm2, lengthM: 1 }), 'vbus', 'resistor').ohm;
    expect(perM(0.081)).toBeCloseTo(0.213, 2);
    expect(perM(0.205)).toBeCloseTo(0.084, 2);
    expect(perM(0.518)).toBeCloseTo(0.033, 2);
  });

  it('starves a 0.5 A device on 4 m of 28 gauge (0.85 V lost) and feeds it on 20 gauge (0.13 V lost)', () => {
    expect(arrives({ lengthM: 4, areaMm2: 0.081 }, 0.5)).toBeCloseTo(4.75 - 0.87, 1);
    // USB 2.0: a device that takes over 0.1 A needs 4.50 V (from memory).
    expect(arrives({ lengthM: 4, areaMm2: 0.081 }, 0.5)).toBeLessThan(4.5);
    expect(arrives({ lengthM: 4, areaMm2: 0.518 }, 0.5)).toBeGreaterThan(4.6);
  });
});

describe('loads at 5 V', () => {
  it('scales a display with its brightness: 7-inch 0.20, 0.33, 0.47 A at 0, half and full (from memory), 0.6 A at worst', () => {
    const display = (brightness: number, load: 'heavy' | 'typical' | 'light') => amp('touch-display', { size: '7', brightness }, load);
    expect(display(0, 'typical')).toBeCloseTo(0.2, 6);
    expect(display(0.5, 'typical')).toBeCloseTo(0.33, 1);
    expect(display(1, 'typical')).toBeCloseTo(0.47, 6);
    expect(display(0.5, 'heavy')).toBeCloseTo(0.6, 6);
    expect(display(1, 'light')).toBeCloseTo(0.2, 6);
  });

  it('takes typed display currents over the size’s, and never a peak below the typical one', () => {
    expect(amp('touch-display', { typA: 0.9 }, 'typical')).toBe(0.9);
    expect(amp('touch-display', { typA: 0.9, peakA: 0.5 }, 'heavy')).toBe(0.9);
    expect(amp('touch-display', { peakA: 1.2 }, 'heavy')).toBe(1.2);
  });

  it('draws a display’s touch current from its USB plug only when that is wired', () => {
    const wired = (t: string) => t === '5v' || t === '0v' || t === 'touch';
    expect(element(behave(partKind('touch-display'), {}, { wired }), 'touchLoad', 'current').a).toBe('touch');
    expect(behave(partKind('touch-display'), {}, { wired: (t) => t !== 'touch' }).elements.some((e) => e.id === 'touchLoad')).toBe(false);
  });

  it('draws what the USB device or sound adapter is said to draw', () => {
    expect(amp('usb-device', { typA: 0.3, peakA: 0.4 }, 'heavy')).toBe(0.4);
    expect(amp('usb-device', { typA: 0.3, peakA: 0.4 }, 'typical')).toBe(0.3);
    // Common adapters: 0.06 A typical, 0.1 A at worst (from memory).
    expect(amp('usb-sound', {}, 'heavy')).toBeCloseTo(0.1, 9);
    expect(amp('usb-sound', {}, 'typical')).toBeCloseTo(0.06, 9);
  });

  it('draws a camera’s night current in the heavy case', () => {
    expect(amp('camera', {}, 'heavy')).toBe(0.45);
    expect(amp('camera', {}, 'typical')).toBe(0.15);
  });
});

describe('grounds of sound and picture', () => {
  it('an isolator joins no screens; a lead does', () => {
    const lead = behave(partKind('audio-lead')).elements;
    const isolator = behave(partKind('audio-isolator')).elements;
    const screens = (elements: typeof lead) => [
      source('one', 'a~0', '0', 1, 0.01),
      ohms('other', 'b~0', '0', 1),
      ohms('a', 'a', 'a~0', 1e4),
      ohms('b', 'b', 'b~0', 1e4),
      ...elements,
    ];
    expect(solveBench(screens(lead)).amps('other')).toBeGreaterThan(0.8);
    expect(Math.abs(solveBench(screens(isolator)).amps('other'))).toBeLessThan(1e-9);
  });

  it('loads each side of the isolator with its own winding', () => {
    const e = behave(partKind('audio-isolator'), { ohm: 600 }).elements;
    expect(e.map((x) => [x.id, x.kind === 'resistor' ? x.ohm : 0])).toEqual([
      ['primary', 600],
      ['secondary', 600],
    ]);
  });

  it.each([
    ['camera', 'video~0', '-'],
    ['video-sender', 'link~0', '-'],
    ['video-receiver', 'video~0', '-'],
    ['usb-sound', 'line~0', 'usb~0'],
    ['touch-display', 'video~0', '0v'],
  ])('%s joins its screen to its return, for tracing and for solving', (kind, screen, back) => {
    expect(partKind(kind).facts(settings(partKind(kind))).links).toContainEqual({ a: screen, b: back, type: 'join' });
    const joint = behave(partKind(kind)).elements.find((e) => e.kind === 'resistor' && [e.a, e.b].includes(screen) && [e.a, e.b].includes(back));
    expect(joint).toBeDefined();
  });
});

describe('joints', () => {
  it('a terminal strip has as many ways as set, each joined across and to no other', () => {
    const strip = partKind('terminal-strip');
    const s = settings(strip, { ways: 3 });
    expect(strip.terminals(s).map((t) => t.id)).toEqual(['a1', 'a2', 'a3', 'b1', 'b2', 'b3']);
    expect(strip.facts(s).links).toHaveLength(3);
    const e = behave(strip, { ways: 3 }).elements;
    const b = solveBench([source('s', 'a2', '0', 5, 1), ohms('two', 'b2', '0', 4), ohms('one', 'b1', '0', 4), ohms('three', 'b3', '0', 4), ...e]);
    expect(b.amps('two')).toBeCloseTo(1, 3);
    expect(Math.abs(b.amps('one'))).toBeLessThan(1e-9);
  });

  it('a connector adds 5 mohm a contact, 10 aged (common practice)', () => {
    const ohm = (aged: boolean) => element(behave(partKind('connector'), { aged }), 'w1', 'resistor').ohm;
    expect(ohm(false)).toBe(0.005);
    expect(ohm(true)).toBe(0.01);
  });

  it('a connector shows its numbered cavities and a latch', () => {
    const kind = partKind('connector');
    const s = settings(kind, { ways: 6 });
    const texts = kind.symbol(s, kind.terminals(s)).primitives.flatMap((p) => (p.t === 'text' ? [p.text] : []));
    expect(texts).toEqual(['1', '2', '3', '4', '5', '6']);
  });

  it('a splice is nothing but its node', () => {
    expect(behave(partKind('splice')).elements).toEqual([]);
    const kind = partKind('splice');
    expect(kind.symbol(settings(kind), []).pads.s).toMatchObject({ x: 10, y: 10 });
  });
});

describe('resistor and LED', () => {
  it('a resistor obeys its value and tolerance', () => {
    expect(element(behave(partKind('resistor'), { ohm: 4700, tol: 0.01 }), 'r', 'resistor')).toMatchObject({ ohm: 4700, tol: { ohm: 0.01 } });
  });

  it('a red LED behind 2.2 kohm on 14.4 V carries 5.6 mA; a typed forward voltage wins over the colour’s', () => {
    const current = (typed: Values) =>
      solveBench([
        source('s', 's', '0', 14.4),
        ohms('r', 's', 'A', 2200),
        ohms('k', 'K', '0', 0.001),
        ...behave(partKind('led'), typed, { ambientC: 25 }).elements,
      ]).amps('led');
    // Red 2.0 V at 20 mA (read in a part description), about 1.9 V at 5 mA: (14.4 - 1.9) / 2200 = 5.7 mA.
    expect(current({})).toBeGreaterThan(0.0055);
    expect(current({})).toBeLessThan(0.0058);
    expect(element(behave(partKind('led'), { colour: 'blue' }), 'led', 'diode').vF).toBe(3.2);
    expect(element(behave(partKind('led'), { colour: 'blue', vF: 2.9 }), 'led', 'diode').vF).toBe(2.9);
  });
});
