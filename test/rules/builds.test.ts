/** Invented builds that are wrong in ways that fitters know, and the demo's own sister that is right. */
import { describe, expect, it } from 'vitest';
import { compute } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

/** `A2 hazard` of every finding on a plan, sorted, each once. */
function said(b: Bench): string[] {
  return [...new Set(compute(b).report.findings.map((f) => `${f.code} ${f.level}`))].sort();
}

describe('school minibus, wrong everywhere', () => {
  const minibus = () =>
    ground('minibus')
      .vehicle({ batteryAh: 80 })
      .set('ground', { place: 'seat-belt-bolt' })
      .part('feed', 'feed-75r', 'dash', {}, { owner: 'vehicle' })
      .part('fuse', 'blade-fuse', 'dash', { ratingA: 15 })
      .part('bulk', 'capacitor', 'dash', { farad: 4700e-6, ratedV: 25 })
      .part('converter', 'step-down', 'dash', {
        setV: 5,
        setTol: 0.05,
        ratedA: 3,
        limitMaxA: 0,
        limitMinA: 0,
        inMaxV: 24,
        absMaxV: 24,
        reverseGuard: false,
        trimmer: true,
        etaFull: 0.8,
        rthKPerW: 50,
        tjMaxC: 125,
      })
      .part('computer', 'computer', 'dash')
      .part('modem', 'usb-device', 'dash', { typA: 0.55, peakA: 1.5 })
      .wire('computer.usb1', 'modem.usb', { lengthM: 1.8 })
      .wire('feed.out', 'fuse.1', { lengthM: 0.9, areaMm2: 0.5 }, 'tap')
      .wire('bulk.+', 'feed.out', { lengthM: 0.1, areaMm2: 0.5 })
      .wire('bulk.-', 'ground.31', { lengthM: 0.1, areaMm2: 0.5 })
      .wire('fuse.2', 'converter.in', { lengthM: 3.2, areaMm2: 0.5 })
      .wire('converter.gnd', 'ground.31', { lengthM: 3.2, areaMm2: 0.5 })
      .wire('converter.out', 'computer.2', { lengthM: 1.4, areaMm2: 0.5 })
      .wire('converter.0v', 'computer.6', { lengthM: 1.4, areaMm2: 0.5 });

  it('finds what is wrong with its source, wires and conversion', () => {
    const found = said(minibus());
    for (const code of ['A2 hazard', 'A3 hazard', 'A10 hazard', 'A11 hazard', 'A12 hazard', 'B2 fault', 'C2 hazard', 'C3 fault', 'C5 fault', 'C7 hazard'])
      expect(found).toContain(code);
    expect(found.some((f) => f.startsWith('B1'))).toBe(true);
  });

  it('one cause is one card: the module that is not rugged, the capacitor ahead of the fuse', () => {
    const { cards } = compute(minibus()).report;
    expect(cards.find((c) => c.code === 'C2')?.folded.map((f) => f.code)).toContain('A11');
  });
});

describe('beet harvester, 24 V, right on the bench and wrong at the corners', () => {
  const harvester = () =>
    ground('harvester', { systemV: 24, centralClamping: 'no', batteryAh: 170 })
      .part('feed', 'feed-15', 'dash', {}, { owner: 'vehicle' })
      .part('fuse', 'blade-fuse', 'dash', { ratingA: 5 })
      .part('clamp', 'surge-clamp', 'dash', { standoffV: 24, brMinV: 26.7, brMaxV: 29.5, clampV: 38.9, peakA: 15.4 })
      .part('bulk', 'capacitor', 'dash', { farad: 1e-3, ratedV: 35 })
      .part('converter', 'step-down', 'dash', { absMaxV: 45, inMaxV: 40 })
      .part('computer', 'computer', 'dash')
      .wire('feed.out', 'fuse.1', { lengthM: 0.1 })
      .wire('fuse.2', 'converter.in', { lengthM: 4.5, areaMm2: 1.5 })
      .wire('clamp.K', 'converter.in', { lengthM: 0.1 })
      .wire('clamp.A', 'converter.gnd', { lengthM: 0.1 })
      .wire('bulk.+', 'converter.in', { lengthM: 0.1 })
      .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 })
      .wire('converter.gnd', 'ground.31', { lengthM: 4.5, areaMm2: 1.5 })
      .wire('converter.out', 'computer.2', { lengthM: 0.2, areaMm2: 1.5 })
      .wire('converter.0v', 'computer.6', { lengthM: 0.2, areaMm2: 1.5 });

  it('clamp, converter and capacitor cannot stand 202 V, and nothing guards against reversal', () => {
    const found = said(harvester());
    for (const code of ['A10 fault', 'A11 hazard', 'C2 hazard', 'C7 hazard']) expect(found).toContain(code);
    for (const quiet of ['A1', 'A2', 'A3', 'A4', 'A7', 'A9', 'A12', 'B1', 'B3', 'B15', 'C1', 'C3', 'C8', 'C13'])
      expect(found.filter((f) => f.split(' ')[0] === quiet)).toEqual([]);
  });
});

describe('the bench', () => {
  it('has nothing but the advice that every plain hold timer gets: a key that is back too early', () => expect(said(bench())).toEqual(['F10 advice']));
});
