import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'coil-diode-reversed';
/** A relay whose coil lies between ignition and ground. */
const relay = (suppression: string, plusAt: '86' | '85') =>
  bench()
    .part('k', 'relay', 'seat', { suppression })
    .wire('senseFuse.2', `k.${plusAt}`)
    .wire(`k.${plusAt === '86' ? '85' : '86'}`, 'converter.gnd');
/** The coil's low side switched by an optocoupler's output, a loose diode across it with its ring at one end. */
const driven = (ringAt: '86' | '85') =>
  bench()
    .part('k', 'relay', 'seat', { suppression: 'none' })
    .part('d', 'diode', 'seat', { type: '1n4007' })
    .part('driver', 'optocoupler', 'seat')
    .part('r', 'resistor', 'seat', { ohm: 1000 })
    .wire('relay.87', 'k.86')
    .wire('k.85', 'driver.C')
    .wire('d.K', `k.${ringAt}`)
    .wire('d.A', `k.${ringAt === '86' ? '85' : '86'}`)
    .wire('driver.E', 'converter.0v')
    .wire('computer.29', 'r.1')
    .wire('r.2', 'driver.A')
    .wire('driver.K', 'computer.39')
    .set('computer', { gpio5Mode: 'out' });

describe('diode across a coil the wrong way round', () => {
  // Worked: 86 to ground with the diode's cathode at 86 is flagged, 86 to plus is clean (terminal numbers of DIN 72552).
  it('86 at plus is right, 86 at ground is not', () => {
    clean(relay('diode', '86'), RULE);
    const b = relay('diode', '85');
    flagged(b, RULE, { level: 'hazard', subject: b.id('k'), says: ['85'], repairs: 1 });
  });

  it('a resistor or nothing inside has no direction', () => {
    quiet(relay('resistor', '85'), RULE);
    quiet(relay('none', '85'), RULE);
  });

  it('a loose diode at a driven coil: ring at plus, or a short through the driver', () => {
    clean(driven('86'), RULE);
    const b = driven('85');
    flagged(b, RULE, { level: 'hazard', subject: b.id('d'), says: ['across the coil', '85'], repairs: 1 });
  });
});
