import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { meterGrounds, meterVolts } from '../../src/analysis/meterGround.ts';
import type { Reading } from '../../src/analysis/types.ts';
import { demoPlan } from '../bench/largePlan.ts';
import { results } from '../sheet/fixture.ts';

const { filled, analysis } = results;
const running = analysis.readings.find((r) => r.state === 'RUN_CHARGING' && r.band === 'typical') as Reading;
const at = (key: string, reading: Reading = running) => meterVolts(filled, analysis, reading, key);

describe('volts as a meter reads them', () => {
  // Differences of the fixture's hand-made volts, calculated.
  it('a rail is measured against the 0 V of the part that makes it or takes it', () => {
    expect(at('p4.out')).toEqual({ v: expect.closeTo(5.12 - 0.02), ground: { part: 'p4', key: 'p4.0v' } });
    expect(at('p5.2')).toEqual({ v: expect.closeTo(5.1 - 0.03), ground: { part: 'p5', key: 'p5.6' } });
  });

  it('a signal is measured against the computer that reads it, also behind a resistor', () => {
    expect(at('p5.29')).toEqual({ v: expect.closeTo(3.3 - 0.03), ground: { part: 'p5', key: 'p5.6' } });
    expect(at('p6.2').ground).toEqual({ part: 'p5', key: 'p5.6' });
    expect(at('p8.1').ground).toEqual({ part: 'p5', key: 'p5.6' });
  });

  it('supply and ground stay against battery negative', () => {
    expect(at('p3.2')).toEqual({ v: 12.46, ground: null });
    expect(at('p4.gnd')).toEqual({ v: 0.02, ground: null });
  });

  it('a 0 V that floats is no place for a probe; what floats or was not solved has no volts', () => {
    const floating = (key: string): Reading => ({
      ...running,
      terminalV: running.terminalV.map((v, i) => (analysis.index.terminals[i] === key ? Number.NaN : v)),
    });
    expect(at('p5.2', floating('p5.6'))).toEqual({ v: 5.1, ground: null });
    expect(at('p5.2', floating('p5.2')).v).toBeNaN();
    expect(at('p5.2', { ...running, status: 'not computed' }).v).toBeNaN();
  });

  it('on the demo agrees with what arrives and with the levels of pins, and a plug is measured at its own shell', () => {
    const demo = computeResults(demoPlan);
    const id = (kind: string): string => Object.values(demoPlan.parts).find((p) => p.kind === kind)!.id;
    const computer = id('computer');
    const reading = demo.analysis.readings.find((r) => r.state === 'RUN_CHARGING' && r.band === 'typical')!;
    const volts = (key: string): number => meterVolts(demo.filled, demo.analysis, reading, key).v;
    const arrival = demo.analysis.arrivals.find((a) => a.part === computer)!;
    expect(volts(`${computer}.${arrival.plus}`)).toBeCloseTo(arrival.typical[4]!, 9);
    const pin = demo.analysis.pins.find((p) => p.part === computer && p.pin === 29)!;
    expect(volts(`${computer}.29`)).toBeCloseTo(pin.volts[4]!, 9);
    expect(meterGrounds(demo.filled)(`${computer}.usb1`)).toEqual({ part: computer, key: `${computer}.usb1~0` });
    // The sensed vehicle line ends at its resistor: nothing behind it has a 0 V of its own.
    expect(meterGrounds(demo.filled)(`${id('optocoupler')}.A`)).toBeNull();
  });
});
