import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Results } from '../../src/advise/types.ts';
import { type Bench, bench, fused } from '../rules/plans.ts';

const areaOf = (r: Results, b: Bench, name: string): number => r.filled.wires[b.wireId(name)]?.areaMm2 ?? Number.NaN;
const says = (r: Results, code: string): boolean => r.report.findings.some((f) => f.code === code);

describe('sizes for little drop', () => {
  it('share it by length and the root of the current, which takes the least copper', () => {
    // Areas that go as the roots of the currents keep a given drop with the least copper (Lagrange multipliers). 2.3 % of 12 V,
    // 0.28 V, over 12 m at 3.1 A and 24 m at 0.45 A (a camera at night): 4.3 and 11 mohm/m, in warm copper to IEC 60228
    // class 5 6 and 2.5 mm². By length alone it would be 2.5 mohm/m for the lead that both share, 10 mm², and a fifth more copper.
    const b = fused('shared')
      .part('camera', 'camera', 'dash')
      .part('heater', 'resistor', 'dash', { ohm: 3.4, watts: 50 })
      .part('joint', 'splice', 'dash')
      .wire('fuse.2', 'joint.s', { lengthM: 12 }, 'shared')
      .wire('joint.s', 'camera.+', { lengthM: 12 }, 'thin')
      .wire('camera.-', 'ground.31', { lengthM: 12 }, 'back')
      .wire('joint.s', 'heater.1', { lengthM: 0.1 })
      .wire('heater.2', 'ground.31', { lengthM: 0.1 });
    const r = computeResults(b.plan);
    expect([areaOf(r, b, 'shared'), areaOf(r, b, 'thin'), areaOf(r, b, 'back')]).toEqual([6, 2.5, 2.5]);
  });

  it('give the way home of a converter its share', () => {
    const long = bench('long way home').wireSet('return', { lengthM: 9 });
    const r = computeResults(long.plan);
    expect(areaOf(r, long, 'return')).toBeGreaterThan(areaOf(computeResults(bench().plan), bench(), 'return'));
    expect(says(r, 'B1')).toBe(false);
  });

  it('leave to the others what a wire of a given size loses', () => {
    const [thin, thick] = [0.75, 4].map((areaMm2) => bench('return').wireSet('feed', { lengthM: 6 }).wireSet('return', { lengthM: 4, areaMm2 })) as [
      Bench,
      Bench,
    ];
    expect(areaOf(computeResults(thin.plan), thin, 'feed')).toBeGreaterThan(areaOf(computeResults(thick.plan), thick, 'feed'));
  });

  it('of a USB cable are one that is made, however long it is', () => {
    // Ready-made cables have supply pairs of AWG 28 to 20 (USB 2.0 cable and connector specification, from memory): 0.5 mm² at the most.
    const b = bench('usb').part('modem', 'usb-device', 'dash', { amps: 0.5 }).wire('computer.usb1', 'modem.usb', { lengthM: 5 }, 'usb');
    expect(areaOf(computeResults(b.plan), b, 'usb')).toBe(0.5);
  });
});
