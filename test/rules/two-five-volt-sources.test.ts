import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench, withHub } from './plans.ts';

const RULE = 'two-five-volt-sources';
const second = () =>
  bench().part('second', 'step-down', 'seat').wire('guard.out', 'second.in', { lengthM: 0.1 }).wire('second.gnd', 'converter.gnd', { lengthM: 0.1 });

describe('two 5 V sources on the computer at once', () => {
  it('one converter on pins 2 and 4', () => clean(bench(), RULE));

  it('header and power socket fed by two converters', () => {
    const b = second()
      .set('computer', { feed: 'socket' })
      .wire('second.out', 'computer.vbus', { areaMm2: 1.5 }, 'socket')
      .wire('second.0v', 'computer.0v', { areaMm2: 1.5 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), repairs: 1 });
    // A diode in its feed parts them.
    clean(
      second()
        .set('computer', { feed: 'socket' })
        .part('d', 'diode', 'seat', { type: 'schottky-60v-5a' })
        .wire('second.out', 'd.A')
        .wire('d.K', 'computer.vbus'),
      RULE,
    );
  });

  it('one converter on both is one source', () => {
    clean(
      bench()
        .set('computer', { feed: 'socket' })
        .wire('converter.out', 'computer.vbus', { areaMm2: 1.5 })
        .wire('converter.0v', 'computer.0v', { areaMm2: 1.5 }),
      RULE,
    );
  });

  it('a changeover relay gives it one of two at a time', () => {
    const b = second()
      .part('relay2', 'relay', 'seat')
      .cut('four', 'five')
      .wire('converter.out', 'relay2.87a', { areaMm2: 1.5 })
      .wire('second.out', 'relay2.87', { areaMm2: 1.5 })
      .wire('relay2.30', 'computer.2', { areaMm2: 1.5 })
      .wire('second.0v', 'converter.0v', { areaMm2: 1.5 });
    clean(b, RULE);
  });

  it('into a USB port: a hazard where the board lets it back in, else advice', () => {
    const usb = (usbBackfeed: boolean) =>
      second()
        .set('computer', { usbBackfeed })
        .wire('second.out', 'computer.usb1', { areaMm2: 1.5 }, 'usb')
        .wire('second.0v', 'converter.0v', { areaMm2: 1.5 });
    const b = usb(true);
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), says: ['USB port 1'], repairs: 1 });
    const guarded = usb(false);
    flagged(guarded, RULE, { level: 'advice', subject: guarded.id('computer'), repairs: 1 });
  });

  // Worked case of the catalogue: converter on pins 2 and 4, and a hub that lets its 5 V back; clean with one that does not.
  it('a hub with its own 5 V: a hazard where it lets it back, advice while nobody has looked', () => {
    clean(withHub(bench(), { backfeed: 'no' }), RULE);
    const back = withHub(bench(), { backfeed: 'yes' });
    flagged(back, RULE, { level: 'hazard', subject: back.id('computer'), says: ['lets its own 5 V back', 'USB port 1'], repairs: 1 });
    const unknown = withHub(bench(), {});
    flagged(unknown, RULE, { level: 'advice', subject: unknown.id('computer'), says: ['nobody has said'], repairs: 1 });
    const open = withHub(bench(), {}).set('computer', { usbBackfeed: true });
    flagged(open, RULE, { level: 'hazard', subject: open.id('computer'), repairs: 1 });
  });

  it('a hub that is fed by its plug brings no second source', () => {
    clean(bench().part('hub', 'usb-hub', 'seat', { ownSupply: false }).wire('computer.usb1', 'hub.up', { lengthM: 0.5 }), RULE);
  });
});
