import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'pin-already-taken';

/** The bench with a button from a header pin to 0 V. */
const button = (pin: number) => bench().part('button', 'push-button', 'desk').wire('button.1', `computer.${pin}`, {}, 'pin').wire('button.2', 'converter.0v');

describe('pin already spoken for', () => {
  it('buttons on GPIO 5, and the key sensor on 16', () => {
    clean(button(29), RULE);
  });

  it('a button on GPIO 14 with the console on', () => {
    const b = button(8);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['GPIO 14 (pin 8)', 'serial console'], repairs: 2 });
  });

  it('GPIO 21 with digital audio on, and not with it off', () => {
    const b = button(40).set('computer', { digitalAudio: true });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['digital audio'], repairs: 2 });
    clean(button(40), RULE);
  });

  it('GPIO 3 with the two-wire bus, GPIO 8 with the four-wire bus, GPIO 0 always', () => {
    const i2c = button(5).set('computer', { i2c: true });
    flagged(i2c, RULE, { level: 'fault', subject: i2c.wireId('pin'), repairs: 2 });
    const spi = button(24).set('computer', { spi: true });
    flagged(spi, RULE, { level: 'fault', subject: spi.wireId('pin'), repairs: 2 });
    const id = button(27);
    flagged(id, RULE, { level: 'fault', subject: id.wireId('pin'), says: ['identification'], repairs: 1 });
  });

  it('a mode typed for the pin moves with it, and so does the key sensor', () => {
    const b = bench().cut('pin').wire('opto.C', 'computer.10', { lengthM: 0.2 }, 'pin').set('computer', { gpio15Mode: 'in-up', senseGpio: 15 });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['GPIO 15'], repairs: 2 });
  });

  it('a sensor of the two-wire or four-wire bus on its pins is what they are for, typed or not', () => {
    const clock = bench()
      .set('computer', { i2c: true })
      .part('clock', 'bus-device', 'seat')
      .wire('clock.+', 'computer.17')
      .wire('clock.-', 'computer.39')
      .wire('clock.sda', 'computer.3', {}, 'sda')
      .wire('clock.scl', 'computer.5');
    clean(clock, RULE);
    const reader = bench()
      .set('computer', { spi: true })
      .part('reader', 'bus-device', 'seat', { bus: 'spi' })
      .wire('reader.+', 'computer.17')
      .wire('reader.-', 'computer.39')
      .wire('reader.mosi', 'computer.19')
      .wire('reader.miso', 'computer.21')
      .wire('reader.sclk', 'computer.23')
      .wire('reader.ce', 'computer.24');
    clean(reader, RULE);
    // A button beside the sensor is none of the bus.
    const b = clock.part('button', 'push-button', 'desk').wire('button.1', 'computer.3').wire('button.2', 'converter.0v');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('sda'), says: ['two-wire bus'] });
  });

  it('a serial partner on 14 and 15 with the console off is what they are for', () => {
    const b = bench().part('receiver', 'connector', 'desk').wire('receiver.a1', 'computer.8').wire('receiver.a2', 'computer.10');
    clean(b.set('computer', { console: false, gpio14Mode: 'serial', gpio15Mode: 'serial' }), RULE);
  });

  it('a serial device with the console still on: each hears the other; its pins need no mode typed', () => {
    const talk = () =>
      bench()
        .part('gps', 'serial-device', 'desk')
        .wire('gps.tx', 'computer.10')
        .wire('gps.rx', 'computer.8')
        .wire('gps.+', 'computer.17')
        .wire('gps.-', 'computer.20');
    const b = talk();
    flagged(b, RULE, { level: 'fault', subject: b.wireId('gps.tx>computer.10'), says: ['serial console', 'gps'], repairs: 1 });
    clean(talk().set('computer', { console: false }), RULE);
    clean(talk().set('computer', { console: false }), 'input-left-floating');
  });

  it('has nothing to say without a wired pin', () => {
    quiet(ground(), RULE);
  });
});
