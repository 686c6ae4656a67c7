import type { Vehicle } from '../../plan/types.ts';
import type { Bench } from './bench.ts';
import { bench, fused } from './plans.ts';

/** The bench fed over its ignition lead alone: no hold relay, the permanent feed left unused. */
export function onIgnition(title = 'on ignition', vehicle: Partial<Vehicle> = {}): Bench {
  return bench(title, vehicle)
    .without('relay', 'fuse')
    .part('fuse', 'blade-fuse', 'dash')
    .wire('feed15.out', 'fuse.1', { lengthM: 0.12 }, 'tap')
    .wire('fuse.2', 'guard.in', { lengthM: 2.1 }, 'feed');
}

/** Converter and computer on a feed of any line, behind a fuse, with nothing that holds or cuts. */
export function straight(line: '30' | '75r', title = 'straight', vehicle: Partial<Vehicle> = {}): Bench {
  const b = fused(title, vehicle);
  if (line === '75r') {
    b.without('feed30')
      .part('retained', 'feed-75r', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
      .wire('battery.+', 'retained.in', { owner: 'vehicle' })
      .wire('retained.out', 'fuse.1', { lengthM: 0.12 }, 'tap');
  }
  return b
    .part('clamp', 'surge-clamp', 'seat', { bidirectional: true })
    .part('guard', 'reverse-guard', 'seat', { reverseV: 100 })
    .part('bulk', 'capacitor', 'seat')
    .part('converter', 'step-down', 'seat')
    .part('computer', 'computer', 'seat')
    .wire('fuse.2', 'guard.in', { lengthM: 2.1 }, 'feed')
    .wire('clamp.K', 'guard.in', { lengthM: 0.1 })
    .wire('clamp.A', 'converter.gnd', { lengthM: 0.1 })
    .wire('guard.out', 'converter.in', { lengthM: 0.1 })
    .wire('guard.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 })
    .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 })
    .wire('converter.gnd', 'ground.31', { lengthM: 2.2 }, 'return')
    .wire('converter.out', 'computer.2', { lengthM: 0.25, areaMm2: 1.5 })
    .wire('converter.out', 'computer.4', { lengthM: 0.25, areaMm2: 1.5 })
    .wire('converter.0v', 'computer.6', { lengthM: 0.25, areaMm2: 1.5 })
    .wire('converter.0v', 'computer.9', { lengthM: 0.25, areaMm2: 1.5 });
}

/** An ignition feed with its fuse, for what is to sense or trigger. */
export function withIgnition(b: Bench): Bench {
  return b
    .part('feed15', 'feed-15', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('senseFuse', 'blade-fuse', 'dash', { ratingA: 1 })
    .part('lamp', 'led', 'dash')
    .part('lampR', 'resistor', 'dash', { ohm: 2200 })
    .wire('battery.+', 'feed15.in', { owner: 'vehicle' })
    .wire('feed15.out', 'senseFuse.1', { lengthM: 0.12 })
    .wire('senseFuse.2', 'lampR.1', { lengthM: 0.1 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
    .wire('lamp.K', 'ground.31', { lengthM: 0.3 });
}

/** The bench with a sound adapter on a USB port and the radio's input, not joined yet. */
export function withSound(b: Bench = bench()): Bench {
  return b.part('sound', 'usb-sound', 'seat').part('aux', 'radio-aux', 'dash', {}, { owner: 'vehicle' }).wire('computer.usb1', 'sound.usb', { lengthM: 0.3 });
}

/** The bench with a second sensor, on a lamp line, that tells GPIO 5 (pin 29) whether that lamp is on. */
export function withLampSense(line: 'reverse' | '58', title = 'lamp sense'): Bench {
  return bench(title)
    .set('computer', { senseGpio: 16 })
    .part('lampFeed', `feed-${line}`, 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
    .part('lampSense', 'resistor', 'dash')
    .part('lampOpto', 'optocoupler', 'seat')
    .part('lampReverse', 'diode', 'seat', { type: '1n4148' })
    .part('lampPull', 'resistor', 'seat', { ohm: 10_000 })
    .wire('battery.+', 'lampFeed.in', { owner: 'vehicle' })
    .wire('lampFeed.out', 'lampFuse.1', { lengthM: 0.12 })
    .wire('lampFuse.2', 'lampSense.1', { lengthM: 0.05 })
    .wire('lampSense.2', 'lampOpto.A', { lengthM: 2.3 })
    .wire('lampOpto.K', 'ground.31', { lengthM: 2.3, areaMm2: 0.5 })
    .wire('lampReverse.K', 'lampOpto.A', { lengthM: 0.05 })
    .wire('lampReverse.A', 'lampOpto.K', { lengthM: 0.05 })
    .wire('lampOpto.C', 'computer.29', { lengthM: 0.2 }, 'lampPin')
    .wire('lampPull.1', 'lampOpto.C', { lengthM: 0.05 })
    .wire('lampPull.2', 'computer.17', { lengthM: 0.2 })
    .wire('lampOpto.E', 'computer.30', { lengthM: 0.2 });
}

/** The bench whose sensor watches an accessory line of any sort; the hold relay stays on ignition unless told. */
export function sensedOn(line: '75' | '75r' | '58', title = 'sensed elsewhere', trigger: '15' | 'same' = '15'): Bench {
  const b = bench(title)
    .part('other', `feed-${line}`, 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('otherFuse', 'blade-fuse', 'dash', { ratingA: 1 })
    .wire('battery.+', 'other.in', { owner: 'vehicle' })
    .wire('other.out', 'otherFuse.1', { lengthM: 0.12 })
    .cut('sense')
    .wire('otherFuse.2', 'sense.1', { lengthM: 0.05 }, 'sense');
  return trigger === '15' ? b : b.cut('trigger').wire('otherFuse.2', 'relay.15', { lengthM: 2.3 }, 'trigger');
}

/**
 * The computer carried by six 100 F cells over a charge limiter: fed over ignition, nothing else holds.
 * More parts: limiter store storeFuse. More wires: feed (fuse to guard), toLimiter, fromLimiter, charge, tapStore, storeBack.
 */
export function withStore(title = 'store', vehicle: Partial<Vehicle> = {}): Bench {
  return onIgnition(title, vehicle)
    .cut('toConverter', 'bulk+')
    .part('limiter', 'charge-limiter', 'seat')
    .part('store', 'store', 'seat')
    .part('storeFuse', 'blade-fuse', 'seat', { ratingA: 5 })
    .wire('guard.out', 'limiter.in', { lengthM: 0.1 }, 'toLimiter')
    .wire('limiter.out', 'converter.in', { lengthM: 0.1 }, 'fromLimiter')
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 }, 'bulk+')
    .wire('limiter.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire('store.+', 'storeFuse.1', { lengthM: 0.1 }, 'tapStore')
    .wire('storeFuse.2', 'limiter.store', { lengthM: 0.1 }, 'charge')
    .wire('store.-', 'converter.gnd', { lengthM: 0.1 }, 'storeBack');
}

/** The bench with a hold latch in place of the relay: set by ignition, held by GPIO 20 (pin 38). Wires: set hold. */
export function withLatch(title = 'latch', vehicle: Partial<Vehicle> = {}): Bench {
  return bench(title, vehicle)
    .without('relay')
    .part('latch', 'hold-latch', 'seat')
    .wire('fuse.2', 'latch.in', { lengthM: 2.1 }, 'feed')
    .wire('latch.out', 'guard.in', { lengthM: 0.2 }, 'out')
    .wire('latch.gnd', 'converter.gnd', { lengthM: 0.3 })
    .wire('senseFuse.2', 'latch.set', { lengthM: 2.3 }, 'set')
    .wire('computer.38', 'latch.hold', { lengthM: 0.3 }, 'hold')
    .set('computer', { gpio20Mode: 'out' });
}

/** The bench with a cut-out ahead of the hold relay, its warning not joined to anything. */
export function withCutout(title = 'cut-out', vehicle: Partial<Vehicle> = {}): Bench {
  return bench(title, vehicle).into('feed', 'cutout', 'low-voltage-cutout', ['in', 'out']).wire('cutout.gnd', 'ground.31', { lengthM: 0.3 });
}
