import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'load-on-pin';
const relay = () => bench().part('k', 'relay', 'seat', {});

describe('a coil or load hangs on a pin', () => {
  it('a 12 V coil between a pin and ground', () => {
    const b = relay().wire('computer.29', 'k.86', { lengthM: 0.3 }, 'pin').wire('k.85', 'converter.gnd', { lengthM: 0.2 });
    // 16 V / (0.9 x 90 Ω) = 198 mA.
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.wireId('pin'),
      says: ['GPIO 5', 'coil'],
      figures: { 'it takes': 0.198, 'the pin gives': 0.008 },
      repairs: 1,
    });
  });

  it('a coil between the supply and a pin', () => {
    const b = relay().wire('relay.87', 'k.86', { lengthM: 0.3 }).wire('k.85', 'computer.29', { lengthM: 0.2 }, 'pin');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin'), repairs: 1 });
  });

  it('a clamp across the coil makes no ground of its low side: the pin still sinks the coil, and fights with nothing', () => {
    const b = relay()
      .part('across', 'surge-clamp', 'seat', { bidirectional: true })
      .wire('relay.87', 'k.86', { lengthM: 0.3 })
      .wire('k.85', 'computer.29', { lengthM: 0.2 }, 'pin')
      .wire('across.K', 'k.86', { lengthM: 0.1 })
      .wire('across.A', 'k.85', { lengthM: 0.1 })
      .set('computer', { gpio5Mode: 'out' });
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin') });
    quiet(b, 'outputs-fight');
  });

  it('the same coil over a low-side driver, with its diode', () => {
    clean(
      relay()
        .set('k', { suppression: 'diode' })
        .part('driver', 'low-side-driver', 'seat')
        .wire('relay.87', 'k.86', { lengthM: 0.3 })
        .wire('k.85', 'driver.out', { lengthM: 0.1 })
        .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
        .wire('computer.11', 'driver.in', { lengthM: 0.2 }),
      RULE,
    );
  });

  it('a sensor of 5 mA fed by a pin is in order, a receiver of 40 mA is not', () => {
    const fed = (kind: string) =>
      bench().part('d', kind, 'seat').wire('computer.29', 'd.+', { lengthM: 0.2 }, 'pin').wire('d.-', 'computer.39', { lengthM: 0.2 });
    clean(fed('bus-device'), RULE);
    const b = fed('serial-device');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin'), figures: { 'it takes': 0.04 } });
  });
});
