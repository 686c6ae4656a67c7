import { type Bench, ZONE } from '../../src/rules/book/bench.ts';
import { bench, fused } from '../../src/rules/book/plans.ts';

export { Bench, ZONE } from '../../src/rules/book/bench.ts';
export { bench, fused, ground, plainRelay, withCamera, withHub } from '../../src/rules/book/plans.ts';

/** Plans that together with the demo hold something for every rule to look at; they need not be in order. */
export function allKinds(): Bench[] {
  const linear = fused('linear')
    .part('regulator', 'linear-regulator', 'seat')
    .part('display', 'touch-display', 'seat', { typA: 0.06, peakA: 0.06 })
    .wire('fuse.2', 'regulator.in', { lengthM: 2 })
    .wire('regulator.gnd', 'ground.31', { lengthM: 2 })
    .wire('regulator.out', 'display.5v', { lengthM: 0.2 })
    .wire('display.0v', 'regulator.gnd', { lengthM: 0.2 })
    .part('lampR', 'resistor', 'seat', { ohm: 470 })
    .part('lamp', 'led', 'seat')
    .wire('regulator.out', 'lampR.1', { lengthM: 0.2 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
    .wire('lamp.K', 'regulator.gnd', { lengthM: 0.2 })
    .set('ground', { place: 'strapped-cab' })
    .wire('regulator.gnd', 'battery.-', { lengthM: 2 })
    .part('camera', 'camera', 'dash', { lithium: true })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 })
    .wire('camera.video', 'display.video', { lengthM: 2.5 })
    .part('lamps', 'feed-58', 'dash', {}, { owner: 'vehicle' })
    .part('k', 'relay', 'dash', { suppression: 'diode' })
    .part('bulb', 'led', 'dash')
    .part('bulbR', 'resistor', 'dash')
    .wire('lamps.out', 'bulbR.1', { lengthM: 0.1 })
    .wire('bulbR.2', 'bulb.A', { lengthM: 0.1 })
    .wire('bulb.K', 'ground.31', { lengthM: 0.2 })
    .wire('fuse.2', 'k.86', { lengthM: 0.2 })
    .wire('k.85', 'ground.31', { lengthM: 0.2 })
    .wire('fuse.2', 'k.30', { lengthM: 0.2 })
    .wire('k.87a', 'bulb.A', { lengthM: 0.2 })
    .zone('dash', { bag: 'no' });
  return [linear, machine()];
}

/** A 24 V machine with four cameras over the joint of its tilting cab, their leads in one bundle, each with a plug. */
function machine(): Bench {
  const b = fused('machine', { systemV: 24 });
  const tilting = Object.values(b.plan.runs).find((r) => r.a === ZONE.dash && r.b === ZONE.seat)!;
  b.plan = { ...b.plan, runs: { ...b.plan.runs, [tilting.id]: { ...tilting, moving: 'tilt' } } };
  for (let i = 0; i < 4; i++) {
    b.part(`plug${i}`, 'connector', 'seat', { ways: 2, family: 'sealed' })
      .part(`camera${i}`, 'camera', 'seat', { maxV: 36, absMaxV: 60, typA: 0.6, nightA: 0.6 })
      .wire('fuse.2', `plug${i}.a1`, { areaMm2: 0.22 })
      .wire(`plug${i}.b1`, `camera${i}.+`, { lengthM: 0.2 })
      .wire(`camera${i}.-`, 'ground.31', { looped: true });
  }
  return b;
}

/** A relay `k` behind the hold relay, its low side switched by the output of optocoupler `driver`, which GPIO 5 lights. */
export function coilOnOpto(coil: Bench['plan']['parts'][string]['settings'], opto: typeof coil = {}, ohm = 1000): Bench {
  return bench()
    .part('k', 'relay', 'seat', coil)
    .part('driver', 'optocoupler', 'seat', opto)
    .part('r', 'resistor', 'seat', { ohm })
    .wire('relay.87', 'k.86')
    .wire('k.85', 'driver.C')
    .wire('driver.E', 'converter.0v')
    .wire('computer.29', 'r.1')
    .wire('r.2', 'driver.A')
    .wire('driver.K', 'computer.39')
    .set('computer', { gpio5Mode: 'out' });
}
