import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';
import { keyDivider } from './plansSense.ts';

const RULE = 'pin-with-two-jobs';

describe('one pin, two jobs', () => {
  it('sensor on 16, button on 5', () => {
    clean(bench().part('button', 'push-button', 'desk').wire('button.1', 'computer.29').wire('button.2', 'converter.0v'), RULE);
  });

  it('a button on the key sensor’s pin', () => {
    const b = bench().part('button', 'push-button', 'desk').wire('button.1', 'computer.36', {}, 'second').wire('button.2', 'converter.0v');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['opto', 'button', 'GPIO 16'], repairs: 1 });
  });

  it('joined at the sensor instead of at the header: no wire to move, still said', () => {
    const b = bench().part('button', 'push-button', 'desk').wire('button.1', 'opto.C').wire('button.2', 'converter.0v');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin') });
  });

  it('two buttons of one name do one job on purpose, two of different names do not', () => {
    const two = (other: string) =>
      bench()
        .part('one', 'push-button', 'desk', {}, { name: 'Stop' })
        .part('two', 'push-button', 'desk', {}, { name: other })
        .part('joint', 'splice', 'seat')
        .wire('one.1', 'joint.s')
        .wire('two.1', 'joint.s')
        .wire('joint.s', 'computer.29', {}, 'pin5')
        .wire('one.2', 'converter.0v')
        .wire('two.2', 'converter.0v');
    clean(two('Stop'), RULE);
    const b = two('Lamp');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5'), says: ['Stop', 'Lamp'] });
  });

  it('behind their in-line resistors they still share the pin', () => {
    const b = bench()
      .part('button', 'push-button', 'desk')
      .part('r', 'resistor', 'seat', { ohm: 1000 })
      .wire('button.1', 'r.1')
      .wire('r.2', 'computer.36', {}, 'second')
      .wire('button.2', 'converter.0v');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), repairs: 1 });
  });

  /** A relay over a low-side driver on a header pin. */
  const driven = (b: ReturnType<typeof bench>, pin: number) =>
    b
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .part('driver', 'low-side-driver', 'seat')
      .wire('relay.87', 'k.86', { lengthM: 0.3 })
      .wire('k.85', 'driver.out', { lengthM: 0.1 })
      .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
      .wire(`computer.${pin}`, 'driver.in', { lengthM: 0.2 }, 'drives');

  it('a button on the pin that drives a relay', () => {
    const b = driven(bench(), 38).part('button', 'push-button', 'desk').wire('button.1', 'computer.38', {}, 'second').wire('button.2', 'converter.0v');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('drives'), says: ['button', 'driver', 'GPIO 20'], repairs: 1 });
    clean(driven(bench(), 38), RULE);
  });

  it('a relay’s driver on the key sensor’s pin', () => {
    const b = driven(bench(), 36);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['opto', 'driver', 'GPIO 16'], repairs: 1 });
  });

  it('a dimmed display and a relay’s driver on one pin; two drivers may go on and off together', () => {
    const b = driven(bench(), 33)
      .part('display', 'touch-display', 'seat')
      .wire('converter.out', 'display.5v', { lengthM: 0.5 })
      .wire('display.0v', 'converter.0v', { lengthM: 0.5 })
      .wire('computer.33', 'display.bl', { lengthM: 0.5 });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('drives'), says: ['display', 'driver', 'GPIO 13'], repairs: 1 });
    const two = driven(bench(), 38).part('other', 'low-side-driver', 'seat').wire('computer.38', 'other.in').wire('other.gnd', 'converter.gnd');
    quiet(two, RULE);
  });

  it('a button on the pin of a divided vehicle line', () => {
    const b = keyDivider('feed-15').part('button', 'push-button', 'desk').wire('button.1', 'computer.36').wire('button.2', 'converter.0v');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['button', 'GPIO 16'] });
  });

  it('has nothing to say where nothing moves a pin', () => {
    quiet(ground(), RULE);
  });
});
