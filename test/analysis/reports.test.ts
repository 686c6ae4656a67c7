import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { KEY_POSITIONS } from '../../src/analysis/types.ts';
import type { Part, Plan } from '../../src/plan/types.ts';
import { parkedDays, selfDischargeA } from '../../src/trade/battery.ts';
import { demoPlan } from '../bench/largePlan.ts';
import { bench, fused, ground } from '../rules/plans.ts';

function part(plan: Plan, kind: string, name?: string): Part {
  return Object.values(plan.parts).find((p) => p.kind === kind && (name === undefined || p.name === name))!;
}

describe('the parked battery', () => {
  it('lasts as in the worked figures', () => {
    // 0.40 x 60 Ah / (24 h x (25 mA + 2.5 mA)) = 36.4 days; calculated, without self-discharge.
    expect(parkedDays(60, 0.025 + 0.0025)).toBeCloseTo(36.36, 2);
    // 4 % a month of 60 Ah: 60 x 0.04 / 720 h = 3.33 mA; with it 32.4 days. Calculated.
    expect(selfDischargeA(60)).toBeCloseTo(0.003333, 6);
    expect(parkedDays(60, 0.025 + 0.0025 + selfDischargeA(60))).toBeCloseTo(32.43, 2);
  });

  it('counts what the build draws with every delay run out, by part', () => {
    // A 4.7 kohm resistor across a permanent feed: 12.6 V / 4.7 kohm = 2.68 mA, less nothing worth the name on the way.
    const b = fused('bleeder', { batteryAh: 60, parkedA: 0.025 })
      .part('bleeder', 'resistor', 'seat', { ohm: 4700 })
      .wire('fuse.2', 'bleeder.1')
      .wire('bleeder.2', 'ground.31');
    const { parked } = computeResults(b.plan).analysis;
    expect(parked.buildA).toBeCloseTo(12.6 / 4700, 5);
    expect(parked.shares).toHaveLength(1);
    expect(parked.shares[0]).toMatchObject({ part: b.id('bleeder') });
    expect(parked.shares[0]!.amp).toBeCloseTo(12.6 / 4700, 5);
    expect(parked.vehicleA).toBe(0.025);
    expect(parked.days).toBeCloseTo((0.4 * 60) / (24 * (0.025 + 0.0033333 + 12.6 / 4700)), 2);
    expect(parked.daysWithout).toBeCloseTo((0.4 * 60) / (24 * 0.0283333), 2);
  });

  it('is drawn down by a computer that nothing switches off', () => {
    const b = fused('always on')
      .part('converter', 'step-down', 'seat')
      .part('computer', 'computer', 'seat')
      .wire('fuse.2', 'converter.in')
      .wire('converter.gnd', 'ground.31')
      .wire('converter.out', 'computer.2')
      .wire('converter.0v', 'computer.6');
    const { parked } = computeResults(b.plan).analysis;
    // Nothing tells it that the key is off: about 4 W at 12.6 V.
    expect(parked.buildA).toBeGreaterThan(0.2);
    expect(parked.shares.map((s) => s.part).sort()).toEqual([b.id('converter'), b.id('computer')].sort());
    const shared = parked.shares.reduce((sum, s) => sum + s.amp, 0);
    // The rest is lost in wires, fuse and contacts.
    expect(shared).toBeLessThan(parked.buildA);
    expect(shared).toBeGreaterThan(0.96 * parked.buildA);
    expect(parked.days).toBeLessThan(7);
  });

  it('is empty at once behind a short, without a throw', () => {
    const b = ground('short').wire('battery.+', 'ground.31', { areaMm2: 50, lengthM: 0.3 }).set('battery', { sourceMaxOhm: 0.0005, sourceMinOhm: 0.0005 });
    const { parked } = computeResults(b.plan).analysis;
    expect(parked.buildA).toBeGreaterThan(300);
    expect(parked.days).toBeLessThan(0.1);
  });
});

describe('loads in each key position', () => {
  it('draw what they are made to: the demo’s card reader 0.3 A at 5 V, nothing when parked', () => {
    const { loads } = computeResults(demoPlan).analysis;
    const row = loads.find((l) => l.part === part(demoPlan, 'usb-device').id)!;
    // Parked, Accessory, Ignition, Start, Running, Held.
    expect(row.amps.map((a) => Number(a.toFixed(3)))).toEqual([0, 0, 0.3, 0.3, 0.3, 0.3]);
    expect(row.watts[4]).toBeCloseTo(0.3 * 4.99, 1);
    expect(loads.some((l) => l.part === part(demoPlan, 'step-down').id)).toBe(false);
  });

  it('add up: what the battery gives is what parts and wires use', () => {
    const { analysis, filled } = computeResults(demoPlan);
    const running = analysis.readings.find((x) => x.state === 'RUN_CHARGING' && x.band === 'typical')!;
    const emf = running.elementA[analysis.index.elements.indexOf(`${part(filled, 'battery').id}:emf`)]!;
    const used = analysis.loads.reduce((sum, l) => sum + l.watts[4]!, 0);
    expect(emf * 14.2).toBeGreaterThan(used);
    // The converter's efficiency is 0.88 at its worst and the rest is a few per cent.
    expect(emf * 14.2).toBeLessThan(used / 0.8);
  });
});

describe('pins', () => {
  const { pins } = computeResults(demoPlan).analysis;
  const computer = part(demoPlan, 'computer').id;
  const row = (label: string) => pins.find((p) => p.label.startsWith(label))!;

  it('have one row a wired header cell', () => {
    const cells = Object.values(demoPlan.wires).flatMap((w) => [w.from, w.to].filter((e) => e.part === computer && /^\d+$/.test(e.terminal)));
    expect(pins.map((p) => `${p.pin}`).sort()).toEqual([...new Set(cells.map((e) => e.terminal))].sort());
  });

  it('say their level in words: the key sensor is low with the key on and high in Held, buttons idle high', () => {
    // Parked, Accessory, Ignition, Start, Running, Held.
    expect(row('Key sensor C').level).toEqual(['low', 'low', 'low', 'low', 'low', 'high']);
    expect(row('Button: lamp').level).toEqual(['low', 'low', 'high', 'high', 'high', 'high']);
    // A saturated transistor: at most a few tenths of a volt (data sheet of the 817, from memory).
    expect(row('Key sensor C').volts[4]).toBeLessThan(0.4);
    expect(row('Button: lamp').volts[4]).toBeGreaterThan(3.2);
    expect(row('Button: lamp').pull).toBe('internal pull-up');
  });

  it('call power and ground cells rails, with their volts', () => {
    const power = pins.find((p) => p.pin === 2)!;
    expect(power.level.every((l) => l === 'rail')).toBe(true);
    expect(power.volts[4]).toBeGreaterThan(5);
    expect(pins.find((p) => p.pin === 6)!.volts[4]).toBe(0);
  });

  it('float when nothing holds them', () => {
    const b = bench('loose pin').part('switch', 'push-button', 'desk').wire('switch.1', 'computer.11', {}, 'loose').set('computer', { gpio17Mode: 'in' });
    const loose = computeResults(b.plan).analysis.pins.find((p) => p.pin === 11)!;
    expect(loose.gpio).toBe(17);
    expect(loose.pull).toBe('no internal pull');
    expect(KEY_POSITIONS).toHaveLength(loose.level.length);
  });
});

describe('a wire’s report', () => {
  // 10 m of 1 mm2 each way, 12 V, 6 ohm: class 5 copper has at most 19.5 ohm/km at 20 degrees C (IEC 60228, read).
  const b = fused('drop')
    .set('feed30', { sourceMinOhm: 0.05, sourceMaxOhm: 0.05 })
    .set('fuse', { ratingA: 10 })
    .part('load', 'resistor', 'seat', { ohm: 6, ratedW: 50 })
    .wire('fuse.2', 'load.1', { areaMm2: 1, lengthM: 10 }, 'out')
    .wire('load.2', 'ground.31', { areaMm2: 1, lengthM: 10 }, 'back');
  const { analysis } = computeResults(b.plan);
  const wire = analysis.wires[b.wireId('out')]!;

  it('has resistance, drop, loss and share of nominal as Ohm has them', () => {
    expect(wire.coldOhm).toBeCloseTo((10 * 0.0172) / 1, 2);
    const typical = analysis.readings.find((x) => x.state === 'RUN_CHARGING' && x.band === 'typical')!;
    const amp = typical.wireA[analysis.index.wires.indexOf(wire.id)]!;
    const at = (key: string): number => typical.terminalV[analysis.index.terminals.indexOf(key)]!;
    const drop = at(`${b.id('fuse')}.2`) - at(`${b.id('load')}.1`);
    // Two crimps of 2 mohm each belong to the wire.
    expect(drop / amp).toBeCloseTo(10 * 0.0195 + 2 * 0.002, 4);
    expect(wire.worstA).toBeGreaterThan(amp);
    expect(wire.worstDropShare).toBeCloseTo(wire.worstDropV / 12, 9);
    expect(wire.worstW).toBeLessThanOrEqual(wire.worstDropV * wire.worstA + 1e-9);
    expect(wire.worstWPerM).toBeCloseTo(wire.worstW / 10, 9);
    expect(wire.worstState).toBe('RUN_CHARGING');
  });

  it('finds the largest drop even where it is not the largest current: hot copper', () => {
    const drops = analysis.readings.map((x) => {
      const at = (key: string): number => x.terminalV[analysis.index.terminals.indexOf(key)]!;
      return Math.abs(at(`${b.id('fuse')}.2`) - at(`${b.id('load')}.1`));
    });
    expect(wire.worstDropV).toBeCloseTo(Math.max(...drops, 0), 3);
  });

  it('is hotter in the hottest zone it crosses', () => {
    const hot = fused('hot').part('load', 'usb-device', 'seat').part('end', 'splice', 'bay').wire('fuse.2', 'end.s', { lengthM: 1 }, 'into');
    const report = computeResults(hot.plan).analysis.wires[hot.wireId('into')]!;
    expect(report.zoneC).toBe(105);
    expect(report.kT).toBeLessThan(0.7);
  });
});

describe('a fuse’s report', () => {
  it('has load, allowance, unfused length and prospective currents', () => {
    const b = fused('report')
      .set('fuse', { ratingA: 10 })
      .part('load', 'resistor', 'dash', { ohm: 12, ratedW: 50 })
      .wire('fuse.2', 'load.1', { areaMm2: 1.5, lengthM: 2 }, 'out')
      .wire('load.2', 'ground.31', { areaMm2: 1.5, lengthM: 2 });
    const { fuses } = computeResults(b.plan).analysis;
    const fuse = fuses[b.id('fuse')]!;
    expect(fuse.ratingA).toBe(10);
    // The design corner is 9 V: 0.7 A and a little.
    expect(fuse.heatA).toBeGreaterThan(0.7);
    expect(fuse.heatA).toBeLessThan(0.75);
    // 75 % of the rating, less 0.25 % a kelvin above 25 degrees C (common practice, no source): a dash runs at 60.
    expect(fuse.allowedA).toBeCloseTo(0.75 * 10 * (1 - 0.0025 * 35), 6);
    expect(fuse.unfusedM).toBeCloseTo(0.12, 6);
    // Greatest: rested 12.8 V over the least source resistance of a radio plug, 50 mohm, and 0.12 m of lead twice.
    expect(fuse.greatestShortA).toBeGreaterThan(200);
    expect(fuse.greatestShortA).toBeLessThan(12.9 / 0.05);
    // Least: 9 V over 100 mohm of source and two hot leads of 2 m.
    expect(fuse.leastShortA).toBeGreaterThan(30);
    expect(fuse.leastShortA).toBeLessThan(60);
    expect(fuse.leastShortWire).toBe(b.wireId('out'));
  });

  it('knows no unfused length for a fuse behind another', () => {
    const b = fused('two').part('second', 'blade-fuse', 'seat').wire('fuse.2', 'second.1');
    const { fuses } = computeResults(b.plan).analysis;
    expect(fuses[b.id('second')]!.unfusedM).toBeNull();
  });
});
