import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'input-left-floating';
const button = () => bench().part('button', 'push-button', 'desk').wire('button.1', 'computer.29', {}, 'pin5').wire('button.2', 'converter.0v');

describe('input left hanging', () => {
  it('pull-up of 10 kΩ, or the pin’s own', () => {
    clean(bench(), RULE);
    clean(button(), RULE);
  });

  it('a bare collector with the pin’s own pull off', () => {
    const b = bench().without('pull').set('computer', { gpio16Mode: 'in' });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), says: ['GPIO 16', 'opto'], repairs: 2 });
  });

  it('a button to 0 V with the pin’s own pull off', () => {
    const b = button().set('computer', { gpio5Mode: 'in' });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5'), says: ['button'], repairs: 2 });
  });

  it('a button to 3.3 V wants a pull-down', () => {
    const b = bench()
      .part('button', 'push-button', 'desk')
      .wire('button.1', 'computer.29', {}, 'pin5')
      .wire('button.2', 'computer.17')
      .set('computer', { gpio5Mode: 'in' });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5'), repairs: 2 });
    clean(b.set('computer', { gpio5Mode: 'in-down' }), RULE);
  });

  it('GPIO 2 and 3 have a soldered pull-up, outputs hang on nothing', () => {
    clean(
      bench().part('button', 'push-button', 'desk').wire('button.1', 'computer.3').wire('button.2', 'converter.0v').set('computer', { gpio2Mode: 'in' }),
      RULE,
    );
    clean(button().set('computer', { gpio5Mode: 'out' }), RULE);
  });

  it('a wire from pin to pin is said once', () => {
    const b = bench().wire('computer.29', 'computer.31', {}, 'loop');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('loop'), says: ['GPIO 5'] });
  });

  it('1 MΩ and more holds nothing', () => {
    const b = button().set('computer', { gpio5Mode: 'in' }).part('r', 'resistor', 'seat', { ohm: 2.2e6 }).wire('r.1', 'button.1').wire('r.2', 'computer.17');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5') });
  });

  it('has nothing to say without an input', () => {
    quiet(ground(), RULE);
  });
});
