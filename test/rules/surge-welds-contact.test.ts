import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { onIgnition, straight } from './plansSense.ts';

const RULE = 'surge-welds-contact';

/**
 * A rocker in the supply of converter and computer, 0.2 m from a tap of 0.05 Ω, a large low-impedance capacitor right
 * behind it: 14.4 V over 0.05 Ω of source, a 5 A fuse of some 15 mΩ, thick short wires and 20 mΩ in the capacitor.
 */
const rocker = (farad: number, dcA: number, esrOhm = 0.02): Bench =>
  straight('30', 'rocker')
    .set('bulk', { farad, esrOhm })
    .cut('feed')
    .part('switch', 'master-switch', 'dash', { dcA })
    .wire('fuse.2', 'switch.1', { lengthM: 0.1, areaMm2: 2.5 })
    .wire('switch.2', 'guard.in', { lengthM: 0.2, areaMm2: 2.5 }, 'feed');

describe('capacitor surge welds the switch', () => {
  it('470 µF behind a relay of 30 A that may make 300 A', () => clean(bench(), RULE));

  it('10 000 µF behind a rocker of 10 A that may make 30 A', () => {
    const b = rocker(0.01, 10);
    const f = flagged(b, RULE, { level: 'fault', subject: b.id('switch'), figures: { 'may make': 30 }, says: ['10000 µF'], repairs: 1 });
    const [surge, loop] = [f.figures.find((x) => x.label === 'surge')!.value, f.figures.find((x) => x.label === 'loop')!.value];
    // V / R with the vehicle charging (workshop tables, read: 14.4 V)
    expect(surge).toBeCloseTo(14.4 / loop, 6);
    // Source 50 mΩ, fuse 15 mΩ or so, 2.3 m of return in 2.5 mm² or less, guard 20 mΩ, capacitor 20 mΩ.
    expect(loop).toBeGreaterThan(0.12);
    expect(loop).toBeLessThan(0.25);
  });

  it('the resistance of the loop counts, not the capacitance: 1 Ω in the capacitor keeps it below 30 A', () => {
    clean(rocker(0.01, 10, 1), RULE);
    const small = rocker(100e-6, 10);
    flagged(small, RULE, { level: 'fault', subject: small.id('switch') });
  });

  it('a stronger contact, and less than 47 µF, are no matter', () => {
    clean(rocker(0.01, 40), RULE);
    quiet(rocker(33e-6, 10), RULE);
  });

  it('a resistor that a relay bridges once they are full', () => {
    const b = rocker(0.01, 10);
    expect(repairsOf(b, RULE).map((r) => r.title)).toContainEqual(expect.stringMatching(/^Fill over .*bridged by a relay/));
  });

  it('no contact, no surge through one', () => quiet(onIgnition(), RULE));
});
