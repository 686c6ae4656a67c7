import { withLampSense } from '../../src/rules/book/plansSense.ts';
import type { Bench } from './plans.ts';

export { onIgnition, sensedOn, straight, withCutout, withIgnition, withLampSense, withLatch, withSound, withStore } from '../../src/rules/book/plansSense.ts';

/**
 * One plan that holds whatever a plan may hold for rules of keeping on, lamp lines and sound: latch, store, lamp sensor, output capacitor, dimmed display,
 * and for those of pins: a coil over a driver, a clock on the bus, a divider, a wake by button. */
export function allHolds(): Bench {
  return withLampSense('reverse', 'all holds')
    .without('relay')
    .cut('toConverter', 'bulk+')
    .part('latch', 'hold-latch', 'seat')
    .part('limiter', 'charge-limiter', 'seat')
    .part('store', 'store', 'seat')
    .part('storeFuse', 'blade-fuse', 'seat', { ratingA: 5 })
    .part('big', 'capacitor', 'seat', { ratedV: 16 })
    .wire('fuse.2', 'guard.in', { lengthM: 2.1 })
    .wire('guard.out', 'limiter.in', { lengthM: 0.1 })
    .wire('limiter.out', 'latch.in', { lengthM: 0.1 })
    .wire('latch.out', 'converter.in', { lengthM: 0.1 })
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 })
    .wire('limiter.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire('latch.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire('store.+', 'storeFuse.1', { lengthM: 0.1 })
    .wire('storeFuse.2', 'limiter.store', { lengthM: 0.1 })
    .wire('store.-', 'converter.gnd', { lengthM: 0.1 })
    .wire('senseFuse.2', 'latch.set', { lengthM: 2.3 })
    .wire('computer.38', 'latch.hold', { lengthM: 0.3 })
    .wire('big.+', 'converter.out', { lengthM: 0.05 })
    .wire('big.-', 'converter.0v', { lengthM: 0.05 })
    .part('sound', 'usb-sound', 'seat')
    .part('aux', 'radio-aux', 'dash', {}, { owner: 'vehicle' })
    .part('shown', 'touch-display', 'seat', { dimHz: 25_000 })
    .wire('computer.usb1', 'sound.usb', { lengthM: 0.3 })
    .wire('sound.line', 'aux.aux', { lengthM: 2.3 })
    .wire('converter.out', 'shown.5v', { lengthM: 0.3 })
    .wire('shown.0v', 'converter.0v', { lengthM: 0.3 })
    .wire('computer.33', 'shown.bl', { lengthM: 0.3 })
    .wire('converter.en', 'converter.in', { lengthM: 0.05 })
    .part('coil', 'relay', 'seat', { suppression: 'diode' })
    .part('driver', 'low-side-driver', 'seat')
    .part('clock', 'bus-device', 'seat')
    .part('top', 'resistor', 'dash', { ohm: 47_000 })
    .part('low', 'resistor', 'seat', { ohm: 10_000 })
    .wire('latch.out', 'coil.86', { lengthM: 0.3 })
    .wire('coil.85', 'driver.out', { lengthM: 0.1 })
    .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire('computer.11', 'driver.in', { lengthM: 0.2 })
    .wire('computer.17', 'clock.+', { lengthM: 0.1 })
    .wire('clock.-', 'computer.39', { lengthM: 0.1 })
    .wire('clock.sda', 'computer.3', { lengthM: 0.1 })
    .wire('clock.scl', 'computer.5', { lengthM: 0.1 })
    .wire('senseFuse.2', 'top.1', { lengthM: 0.1 })
    .wire('top.2', 'low.1', { lengthM: 2.3 })
    .wire('low.1', 'computer.18', { lengthM: 0.1 })
    .wire('low.2', 'computer.20', { lengthM: 0.1 })
    .set('computer', { gpio20Mode: 'out', wakes: 'gpio3', i2c: true, gpio2Mode: 'bus', gpio3Mode: 'bus' });
}
