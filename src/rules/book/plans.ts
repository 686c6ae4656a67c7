import type { Value, Vehicle } from '../../plan/types.ts';
import { Bench, type ZoneName } from './bench.ts';

/** Battery with its strap, and the radio ground: what every plan stands on. */
export function ground(title = 'ground', vehicle: Partial<Vehicle> = {}): Bench {
  return new Bench(title, vehicle)
    .part('battery', 'battery', 'bay', {}, { owner: 'vehicle' })
    .part('strap', 'chassis-ground', 'bay', { place: 'body-stud' }, { owner: 'vehicle' })
    .part('ground', 'chassis-ground', 'dash', { place: 'radio-ground' })
    .wire('battery.-', 'strap.31', { owner: 'vehicle', lengthM: 0.3 }, 'strap');
}

/** `ground` and a permanent feed with a 5 A fuse at the tap; the fused side is `fuse.2`. */
export function fused(title = 'fused', vehicle: Partial<Vehicle> = {}): Bench {
  return ground(title, vehicle)
    .part('feed30', 'feed-30', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('fuse', 'blade-fuse', 'dash')
    .wire('battery.+', 'feed30.in', { owner: 'vehicle' }, 'lead30')
    .wire('feed30.out', 'fuse.1', { lengthM: 0.12 }, 'tap');
}

/** A camera between `fuse.2` and `ground.31`, its picture on a screen. More parts: camera screen. More wires: supply back picture. */
export function withCamera(
  b: Bench,
  settings: Readonly<Record<string, Value>> = {},
  { zone = 'dash', lengthM = 1, areaMm2 }: { readonly zone?: ZoneName; readonly lengthM?: number; readonly areaMm2?: number } = {},
): Bench {
  const extras = areaMm2 === undefined ? { lengthM } : { lengthM, areaMm2 };
  return b
    .part('camera', 'camera', zone, settings)
    .part('screen', 'touch-display', 'dash')
    .wire('fuse.2', 'camera.+', extras, 'supply')
    .wire('camera.-', 'ground.31', extras, 'back')
    .wire('camera.video', 'screen.video', { lengthM: 2.5 }, 'picture');
}

/**
 * A small clean 12 V plan: permanent and ignition feeds with fuses at the taps, hold relay, both-ways clamp, reverse guard,
 * bulk capacitor, step-down converter, computer on header pins 2, 4 and 6, 9, 14, and a key sensor on GPIO 16.
 *
 * Parts: battery strap ground feed30 feed15 fuse senseFuse relay clamp guard bulk converter computer sense opto reverse pull.
 * Wires: lead30 lead15 strap tap feed out toGuard toConverter clamp+ clamp- bulk+ bulk- guard- relay- return five four
 * zero6 zero9 zero14 tap15 trigger sense led led- reverse+ reverse- pin pull+ pull- emitter.
 */
export function bench(title = 'bench', vehicle: Partial<Vehicle> = {}): Bench {
  return fused(title, vehicle)
    .part('feed15', 'feed-15', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('senseFuse', 'blade-fuse', 'dash')
    .part('relay', 'delay-off-relay', 'seat')
    .part('clamp', 'surge-clamp', 'seat', { bidirectional: true })
    .part('guard', 'reverse-guard', 'seat', { reverseV: 100 })
    .part('bulk', 'capacitor', 'seat')
    .part('converter', 'step-down', 'seat')
    .part('computer', 'computer', 'seat')
    .part('sense', 'resistor', 'dash')
    .part('opto', 'optocoupler', 'seat')
    .part('reverse', 'diode', 'seat', { type: '1n4148' })
    .part('pull', 'resistor', 'seat', { ohm: 10_000 })
    .wire('battery.+', 'feed15.in', { owner: 'vehicle' }, 'lead15')
    .wire('fuse.2', 'relay.30', { lengthM: 2.1 }, 'feed')
    .wire('relay.87', 'guard.in', { lengthM: 0.2 }, 'out')
    .wire('clamp.K', 'guard.in', { lengthM: 0.1 }, 'clamp+')
    .wire('clamp.A', 'converter.gnd', { lengthM: 0.1 }, 'clamp-')
    .wire('guard.out', 'converter.in', { lengthM: 0.1 }, 'toConverter')
    .wire('guard.gnd', 'converter.gnd', { lengthM: 0.1 }, 'guard-')
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 }, 'bulk+')
    .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 }, 'bulk-')
    .wire('relay.31', 'converter.gnd', { lengthM: 0.3 }, 'relay-')
    .wire('converter.gnd', 'ground.31', { lengthM: 2.2 }, 'return')
    .wire('converter.out', 'computer.2', { lengthM: 0.25, areaMm2: 1.5 }, 'five')
    .wire('converter.out', 'computer.4', { lengthM: 0.25, areaMm2: 1.5 }, 'four')
    .wire('converter.0v', 'computer.6', { lengthM: 0.25, areaMm2: 1.5 }, 'zero6')
    .wire('converter.0v', 'computer.9', { lengthM: 0.25, areaMm2: 1.5 }, 'zero9')
    .wire('converter.0v', 'computer.14', { lengthM: 0.25, areaMm2: 1.5 }, 'zero14')
    .wire('feed15.out', 'senseFuse.1', { lengthM: 0.12 }, 'tap15')
    .wire('senseFuse.2', 'relay.15', { lengthM: 2.3 }, 'trigger')
    .wire('senseFuse.2', 'sense.1', { lengthM: 0.05 }, 'sense')
    .wire('sense.2', 'opto.A', { lengthM: 2.3 }, 'led')
    .wire('opto.K', 'ground.31', { lengthM: 2.3, areaMm2: 0.5 }, 'led-')
    .wire('reverse.K', 'opto.A', { lengthM: 0.05 }, 'reverse+')
    .wire('reverse.A', 'opto.K', { lengthM: 0.05 }, 'reverse-')
    .wire('opto.C', 'computer.36', { lengthM: 0.2 }, 'pin')
    .wire('pull.1', 'opto.C', { lengthM: 0.05 }, 'pull+')
    .wire('pull.2', 'computer.1', { lengthM: 0.2 }, 'pull-')
    .wire('opto.E', 'computer.34', { lengthM: 0.2 }, 'emitter');
}

/** `bench` with a plain relay `k`, pulled in by ignition, in the place of the hold relay. */
export function plainRelay(settings: Readonly<Record<string, Value>> = {}): Bench {
  return bench('plain relay')
    .without('relay')
    .part('k', 'relay', 'seat', { suppression: 'diode', ...settings })
    .wire('fuse.2', 'k.30', { lengthM: 2.1 })
    .wire('k.87', 'guard.in', { lengthM: 0.2 })
    .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 });
}

/**
 * A hub on USB port 1 with a fused 5 V branch of its own from the converter. More parts: hub hubFuse. More wires: hubBranch
 * hubFeed hubBack hubPlug.
 */
export function withHub(b: Bench, settings: Readonly<Record<string, Value>> = { backfeed: 'no', portClass: 'charging' }): Bench {
  return b
    .part('hub', 'usb-hub', 'seat', settings)
    .part('hubFuse', 'blade-fuse', 'seat')
    .wire('converter.out', 'hubFuse.1', { lengthM: 0.1 }, 'hubBranch')
    .wire('hubFuse.2', 'hub.5v', { lengthM: 0.2 }, 'hubFeed')
    .wire('hub.0v', 'converter.0v', { lengthM: 0.3 }, 'hubBack')
    .wire('computer.usb1', 'hub.up', { lengthM: 0.5 }, 'hubPlug');
}
