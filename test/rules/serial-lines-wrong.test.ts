import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'serial-lines-wrong';

/** A position receiver on the serial pins: GPIO 14 (pin 8) sends, GPIO 15 (pin 10) listens. */
const receiver = (tx = '10', rx = '8', settings: Readonly<Record<string, string | number>> = {}): Bench =>
  bench()
    .set('computer', { console: false, gpio14Mode: 'serial', gpio15Mode: 'serial' })
    .part('gps', 'serial-device', 'seat', settings)
    .wire('gps.+', 'computer.17')
    .wire('gps.-', 'computer.39', {}, 'minus')
    .wire('gps.tx', `computer.${tx}`, {}, 'tx')
    .wire('gps.rx', `computer.${rx}`, {}, 'rx');

describe('serial levels or crossing wrong', () => {
  it('crossed and at 3.3 V passes', () => {
    clean(receiver(), RULE);
  });

  it('a ±9 V receiver on GPIO 15', () => {
    const b = receiver('10', '8', { levels: 'rs232' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('gps'), figures: { 'line at rest': -9 }, says: ['GPIO 15'], repairs: 1 });
  });

  it('TX joined to TX', () => {
    const b = receiver('8', '10');
    flagged(b, RULE, { level: 'fault', subject: b.id('gps'), says: ['both send'], repairs: 1 });
  });

  it('two devices that send on one line', () => {
    const b = receiver().part('scale', 'serial-device', 'seat').wire('scale.+', 'computer.1').wire('scale.-', 'computer.30').wire('scale.tx', 'gps.tx');
    flagged(b, RULE, { level: 'fault', subject: b.id('scale'), says: ['same line'] });
  });

  it('its ground lies nowhere: nothing to measure levels against', () => {
    const b = receiver().cut('minus').part('gap', 'splice', 'seat').wire('gps.-', 'gap.s');
    flagged(b, RULE, { level: 'fault', subject: b.id('gps'), says: ['not joined'] });
  });

  it('no serial device, or one on nothing', () => {
    quiet(bench(), RULE);
    quiet(bench().part('gps', 'serial-device', 'seat').wire('gps.+', 'computer.17').wire('gps.-', 'computer.39'), RULE);
  });
});
