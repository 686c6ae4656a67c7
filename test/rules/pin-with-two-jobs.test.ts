import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

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

  it('has nothing to say where nothing moves a pin', () => {
    quiet(ground(), RULE);
  });
});
